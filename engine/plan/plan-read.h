/* plan-read.h: what the files that read a plan share. Not for other folders.
 *
 * A value of the document is named by a chain of TrnValue on the stack, from which its JSON Pointer
 * is made only when a fault is reported. A function that reads a value reports what is wrong with
 * it and returns something harmless; whoever reads the plan looks at the diagnostics at the end. */
#pragma once

#include "json-read.h"
#include "nearest.h"
#include "plan.h"

/* Entries of one list. Far more than any programme has, and few enough that what grows with the
 * product of two lists, such as what stands on the site in each lift, stays small. */
#define TRN_PLAN_MOST_ITEMS 1000

/* Legs, runways, supports, slings: parts of one gear or of one hoist. */
#define TRN_PLAN_MOST_PARTS 100

typedef struct _TrnValue TrnValue;

struct _TrnValue
{
  const TrnValue *up; /* the object or array it is in; NULL for the document */
  const char *key;    /* NULL for an element */
  guint index;
  JsonNode *node; /* borrowed; NULL where left out */
};

typedef struct
{
  TrnJson *json;
  const char *file, *folder; /* may be NULL */
  gboolean outside_files;
  guint n_missing; /* errors that a missing mesh file makes */
  TrnDiags *diags;
  TrnDiags *muted;    /* takes what would be said twice about one value */
  GHashTable *bodies; /* ids of structures, components and gear → pointer of the first */
  GHashTable *rigging; /* of the lift being read: ids of slings, beams and shackles → pointer of the
                          first */
  GHashTable *steps;   /* ids of lifts and changes → pointer of the first */
  TrnPlan *plan;       /* what is read so far */
  gboolean ids_lost;   /* some structure, component or gear has no id that could be read */
  guint groups;        /* groups of solids round the one that is read */
} TrnReader;

typedef enum
{
  TRN_OPTIONAL,
  TRN_REQUIRED,
} TrnNeed;

/* The range of a number in the unit of the file, and the unit by which a fault shows it. */
typedef struct
{
  double least, most;
  gboolean above_least; /* the least itself is out */
  TrnUnit unit;
} TrnRange;

/* Far beyond any site, near enough that no later product or sum overflows or loses a millimetre:
 * what is beyond is a slip of the pen. */
extern const TrnRange trn_range_length;      /* any sign */
extern const TrnRange trn_range_distance;    /* from 0 */
extern const TrnRange trn_range_positive;    /* length above 0 */
extern const TrnRange trn_range_mass;        /* above 0 */
extern const TrnRange trn_range_mass_factor; /* from 1 */
extern const TrnRange trn_range_seconds;     /* above 0 */
extern const TrnRange trn_range_wait;        /* seconds from 0 */
extern const TrnRange trn_range_angle;       /* any sign */
extern const TrnRange trn_range_play;        /* angle from 0 */
extern const TrnRange trn_range_voltage;     /* kV above 0 */

/* Of gear, whose parts become solids: what those may be at most and at least (solid.h). */
extern const TrnRange trn_range_gear_length;   /* any sign */
extern const TrnRange trn_range_gear_distance; /* from 0 */
extern const TrnRange trn_range_gear_size;     /* above 0 */
extern const TrnRange trn_range_boom_angle;    /* from plumb down to plumb up */
extern const TrnRange trn_range_jib_offset;    /* from straight to square */
extern const TrnRange trn_range_wind;          /* m/s above 0 */

/* Of forces. */
extern const TrnRange trn_range_out_of_plumb; /* above 0 */
extern const TrnRange trn_range_share;        /* of a whole, above 0 */
extern const TrnRange trn_range_drag;         /* force coefficient above 0 */
extern const TrnRange trn_range_density;      /* kg/m³ above 0, of air */
extern const TrnRange trn_range_pressure;     /* Pa above 0, on the ground */
extern const TrnRange trn_range_moment;       /* N m above 0, of a mat */

/* plan-value.c */
TrnValue trn_value_member (const TrnValue *object, const char *key);
TrnValue trn_value_element (const TrnValue *array, guint index);
/* The number of elements; 0 for what is no array. */
guint trn_value_length (const TrnValue *array);
gboolean trn_value_is_null (const TrnValue *value);
gboolean trn_value_is_text (const TrnValue *value);
gboolean trn_value_is_number (const TrnValue *value);
gboolean trn_value_is_array (const TrnValue *value);
gboolean trn_value_is_object (const TrnValue *value);
char *trn_value_pointer_dup (const TrnValue *value);

/* Reports a fault of @value with its place. One fault a value: a second goes to a list that nobody
 * reads. Returns the diagnostic, borrowed. */
TrnDiag *trn_read_fault (TrnReader *reader, const TrnValue *value, const char *code);
TrnDiag *trn_read_fault_at (TrnReader *reader, const char *pointer, const char *code);
TrnDiag *trn_read_fault_text (TrnReader *reader, const TrnValue *value, const char *code,
                              const char *name, const char *text);

/* The member of @object called @key; where left out although needed, a fault of the object. */
TrnValue trn_read_member (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need);

/* TRUE for an object, whose keys are checked against @keys (NULL-terminated) where it is not NULL;
 * FALSE with a fault, or for what is left out. */
gboolean trn_read_object (TrnReader *reader, const TrnValue *value, const char *const *keys);
/* The same for an array, which may hold TRN_PLAN_MOST_ITEMS at most. */
gboolean trn_read_array (TrnReader *reader, const TrnValue *value);
/* Whether @n things in @value are not too many; a fault otherwise. */
gboolean trn_read_few (TrnReader *reader, const TrnValue *value, guint n);

/* The same for an array of @least entries or more and TRN_PLAN_MOST_PARTS at most; its length, 0
 * with a fault. */
guint trn_read_parts (TrnReader *reader, const TrnValue *value, guint least);

/* A number of an array, or NAN with a fault. */
double trn_read_number_at (TrnReader *reader, const TrnValue *value, const TrnRange *range);

/* A member, read. NAN, NULL or @otherwise where left out or faulty. */
double trn_read_number (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                        const TrnRange *range);
char *trn_read_text (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need);
gboolean
trn_read_boolean (TrnReader *reader, const TrnValue *object, const char *key, gboolean otherwise);
/* The index of a text in @words (NULL-terminated); −1 where left out or faulty. */
int trn_read_word (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                   const char *const *words);

/* @n numbers in an array, NAN where faulty. FALSE where @value is left out or faulty. */
gboolean trn_read_numbers (TrnReader *reader, const TrnValue *value, guint n, const TrnRange *range,
                           double *numbers);
/* NAN where left out or faulty. */
TrnVec3 trn_read_vec3 (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                       const TrnRange *range);
TrnPlacement trn_read_placement (TrnReader *reader, const TrnValue *value);

/* An id under @key, by the pattern; noted in @seen, where it must be new. NULL where there is
 * none. */
char *trn_read_id (TrnReader *reader, const TrnValue *object, const char *key, GHashTable *seen);

/* "at", which may be null: not on the site yet. TRUE when it is a place. */
gboolean trn_read_at (TrnReader *reader, const TrnValue *value, TrnPlacement *at);
/* The name under "name", or else @id. */
char *trn_read_name (TrnReader *reader, const TrnValue *value, const char *id);

/* [lo, hi], lo < hi; NAN where left out or faulty. */
TrnInterval
trn_read_range (TrnReader *reader, const TrnValue *object, const char *key, const TrnRange *range);

/* A half and a quarter turn come out exact. */
static inline double
trn_radians (double deg)
{
  return deg / 180 * G_PI;
}

static inline double
trn_or (double number, double otherwise)
{
  return number != number ? otherwise : number;
}

/* plan-read-solid.c */
TrnSolid *trn_read_solid (TrnReader *reader, const TrnValue *value);
/* Whether the solid has a part, or a group part, of that id; @nearest receives one that it has. */
gboolean trn_solid_has_part (const TrnSolid *solid, const char *id, char **nearest);

/* plan-read-mesh.c */
TrnMeshFile *trn_read_mesh_file (TrnReader *reader, const TrnValue *value);
void trn_mesh_file_free (TrnMeshFile *mesh);

/* plan-read-body.c */
void trn_read_structures (TrnReader *reader, const TrnValue *document);
void trn_read_components (TrnReader *reader, const TrnValue *document);

/* plan-read-gear.c */
void trn_read_gear (TrnReader *reader, const TrnValue *document);
/* Gear stands upright: only the heading of the "at" of @object may differ from 0. */
void trn_read_check_upright (TrnReader *reader, const TrnValue *object, const TrnPlacement *at);

/* plan-read-crane.c */
extern const char *const trn_crane_keys[];
/* The `mat` of @object below @foot, whose pad and section are read, no smaller than these. */
void trn_read_mat (TrnReader *reader, const TrnValue *object, TrnGearFoot *foot);
void trn_read_crane (TrnReader *reader, const TrnValue *value, TrnGear *gear);

/* plan-read-approach.c */
void trn_read_approach (TrnReader *reader, const TrnValue *document);

/* plan-read-loads.c */
void trn_read_loads (TrnReader *reader, const TrnValue *document);
void trn_read_wind (TrnReader *reader, const TrnValue *document);
void trn_loads_clear (TrnPlan *plan);
/* Mass, centre of gravity and ground of gear of any kind. */
void trn_read_gear_loads (TrnReader *reader, const TrnValue *value, TrnGear *gear);
/* What slews of a crane beside boom and jib. */
void trn_read_slewing (TrnReader *reader, const TrnValue *crane, TrnGear *gear);

/* plan-read-rigging.c */
/* Moves and hook point of @lift have been read. */
void
trn_read_rigging (TrnReader *reader, const TrnValue *lift, const TrnComponent *load, TrnLift *into);

/* plan-free-gear.c */
void trn_gear_clear (TrnGear *gear);
void trn_rigging_clear (TrnRigging *rigging);

/* plan-read-move.c */
/* @load may be NULL where it is unknown: names of points are not looked up then. @hook stands for
 * a point about which the load turns and that is left out. */
void trn_read_move (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
                    const TrnPoint *hook, TrnMove *move);
TrnPoint trn_read_point (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                         const TrnComponent *load);
/* The same from a value that is there. */
TrnPoint trn_read_point_at (TrnReader *reader, const TrnValue *value, const TrnComponent *load);

/* plan-read-programme.c */
void trn_read_programme (TrnReader *reader, const TrnValue *document);

/* plan-read-lift.c */
void trn_read_lift (TrnReader *reader, const TrnValue *value, TrnLift *lift);
/* Whether @id is one of a structure, component or gear; a fault of @value otherwise. */
gboolean trn_read_is_known (TrnReader *reader, const TrnValue *value, const char *id);
/* Such an id under @key; NULL where left out or faulty. With @components_only all else is a
 * fault. */
char *trn_read_reference (TrnReader *reader, const TrnValue *object, const char *key,
                          gboolean components_only);
