/* main.c: `demo-meshes OUTDIR` writes the mesh files of the demos under OUTDIR, which stands for
 * assets-demo: always the same bytes. A test compares them with those that are kept there. */
#include "models.h"
#include "writers.h"

#include <glib/gstdio.h>

typedef struct
{
  const char *file; /* relative to OUTDIR */
  DmMesh *(*make) (void);
  GByteArray *(*write) (const DmMesh *mesh);
} Item;

static const Item items[] = {
  { "pump-column/column.glb", dm_pump_column_new, dm_write_glb },
  { "pump-column/pipe-bridge.glb", dm_pipe_bridge_new, dm_write_glb },
  { "pump-column/collar.ply", dm_well_collar_new, dm_write_ply },
  { "pump-column/stand.obj", dm_trunnion_stand_new, dm_write_obj },
  { "pump-column/discharge-pipe.stl", dm_discharge_pipe_new, dm_write_stl },
  { "lock-gate/leaf.ply", dm_gate_leaf_new, dm_write_ply },
  { "lock-gate/gatehouse.obj", dm_gatehouse_new, dm_write_obj },
  { "column-tandem/stripper.glb", dm_stripper_new, dm_write_glb },
  { "valve-assembly/body.glb", dm_valve_body_new, dm_write_glb },
  { "valve-assembly/bonnet.ply", dm_valve_bonnet_new, dm_write_ply },
  { "valve-assembly/actuator.stl", dm_valve_actuator_new, dm_write_stl },
  { "valve-assembly/disc.glb", dm_valve_disc_new, dm_write_glb },
  { "valve-assembly/winged-disc.glb", dm_valve_winged_disc_new, dm_write_glb },
  { "valve-assembly/guard-rail.obj", dm_guard_rail_new, dm_write_obj },
};

static gboolean
write_item (const Item *item, const char *folder)
{
  g_autoptr (DmMesh) mesh = item->make ();
  g_autoptr (GByteArray) bytes = item->write (mesh);
  g_autofree char *path = g_build_filename (folder, item->file, NULL);
  g_autofree char *parent = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;
  if (g_mkdir_with_parents (parent, 0777) != 0
      || !g_file_set_contents (path, (const char *)bytes->data, bytes->len, &error))
    {
      g_printerr ("demo-meshes: %s: %s\n", path, error ? error->message : "cannot make its folder");
      return FALSE;
    }
  g_print ("%s %u triangles\n", item->file, mesh->corners->len / 3);
  return TRUE;
}

int
main (int argc, char **argv)
{
  if (argc != 2)
    {
      g_printerr ("Usage: demo-meshes OUTDIR\n");
      return 2;
    }
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    if (!write_item (&items[i], argv[1]))
      return 1;
  return 0;
}
