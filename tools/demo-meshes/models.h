/* models.h: the things that the demos lift, and what stands around them. Each is a new mesh. */
#pragma once

#include "maker.h"

/* assets-demo/pump-column */
DmMesh *dm_pump_column_new (void);
DmMesh *dm_pipe_bridge_new (void);
DmMesh *dm_well_collar_new (void);
DmMesh *dm_trunnion_stand_new (void);
DmMesh *dm_discharge_pipe_new (void);

/* assets-demo/lock-gate */
DmMesh *dm_gate_leaf_new (void);
DmMesh *dm_gatehouse_new (void);

/* assets-demo/column-tandem */
DmMesh *dm_stripper_new (void);

/* assets-demo/valve-assembly */
DmMesh *dm_valve_body_new (void);
DmMesh *dm_valve_bonnet_new (void);
DmMesh *dm_valve_actuator_new (void);
DmMesh *dm_valve_disc_new (void);
DmMesh *dm_valve_winged_disc_new (void);
DmMesh *dm_guard_rail_new (void);
