/* plan-loads.h: what a plan says about forces: how much more than the weight a lift is judged by,
 * from when it counts as critical, and in which wind it goes on. */
#pragma once

typedef enum
{
  TRN_DYNAMIC_NONE, /* not said */
  TRN_DYNAMIC_FACTOR,
  TRN_DYNAMIC_0027_ND_ONSHORE, /* by the static hook load (hook-load.h) */
} TrnDynamicKind;

typedef struct
{
  TrnDynamicKind kind;
  double factor; /* of TRN_DYNAMIC_FACTOR; else NAN */
  char *source;  /* owned; of TRN_DYNAMIC_FACTOR; else NULL */
} TrnDynamicRule;

typedef enum
{
  TRN_CRITICAL_NONE, /* not said */
  TRN_CRITICAL_RULE,
  TRN_CRITICAL_SHARE,
} TrnCriticalKind;

typedef struct
{
  TrnCriticalKind kind;
  char *rule;   /* owned; of TRN_CRITICAL_RULE, as the plan has it; else NULL */
  double share; /* of the rated capacity, of TRN_CRITICAL_SHARE; else NAN */
  char *source; /* owned; of TRN_CRITICAL_SHARE; else NULL */
} TrnCriticalChoice;

/* How far two hooks that hold a load may be out of the level that it is drawn at. */
typedef struct
{
  gboolean given;
  double height_m; /* of one hook beside the other */
  double tilt_rad; /* the load is turned by that much at least; 0: by what the height makes */
  char *source;    /* owned */
} TrnOutOfLevel;

/* The shortest time in which any of hoist, boom, slew and travel drives comes up to, or down from,
 * the speed that its moves need. */
typedef struct
{
  gboolean given;
  double seconds;
  double rest_s; /* a wait of so long brings the load to rest; NAN: none does */
  char *source;  /* owned */
} TrnRamp;

typedef struct
{
  TrnDynamicRule dynamic;
  TrnCriticalChoice critical;
  TrnOutOfLevel out_of_level;
  TrnRamp ramp;
} TrnLoads;

/* The wind up to which lifts go on. */
typedef struct
{
  gboolean given;
  double speed_m_s; /* gusts included */
  double drag;      /* force coefficient c_w of loads */
  double air_kg_m3; /* 1.25 where left out */
  char *source;     /* owned; NULL where left out */
} TrnWind;
