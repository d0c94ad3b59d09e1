/* Plans with one fault each: a small plan without fault (plan-base.h) in which one piece of text is
 * replaced. Each must give exactly the one diagnostic named, at the place named, and no plan.
 *
 * What is wrong follows from the contract of the plan file and from RFC 8259 (JSON). Called with
 * --list it prints the texts that a JSON Schema can refuse, too, for test-schema.py. */
#include "plan.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "json-text.h"
#include "plan-base.h"

typedef struct
{
  const char *name;
  const char *from, *to; /* from NULL: the whole text */
  const char *code, *pointer;
  gboolean schema_sees; /* the fault needs no look at another place of the plan */
  const char *value_name, *value;
} BadPlan;

static const BadPlan bad_plans[] = {
  /* the text as a whole */
  { "empty file", NULL, "", "plan/json-empty", "", FALSE, NULL, NULL },
  { "only spaces", NULL, " \n\t ", "plan/json-empty", "", FALSE, NULL, NULL },
  { "byte order mark", "{\"format\"", "\xef\xbb\xbf{\"format\"", "plan/json-mark", "", FALSE, NULL,
    NULL },
  { "a byte that is no UTF-8", "Base", "B\xffse", "plan/json-encoding", "", FALSE, NULL, NULL },
  { "cut-off UTF-8", "Base", "B\xc3", "plan/json-encoding", "", FALSE, NULL, NULL },
  { "a surrogate coded in UTF-8", "Base", "\xed\xa0\x80", "plan/json-encoding", "", FALSE, NULL,
    NULL },
  { "text cut off", "]}\n", "]", "plan/json-cut", "", FALSE, NULL, NULL },
  { "text cut off within a string", "]}\n", "], \"x-a\": \"b", "plan/json-cut", "/x-a", FALSE, NULL,
    NULL },
  { "text after the end", "]}\n", "]} 1", "plan/json-after-end", "", FALSE, NULL, NULL },
  { "a second document", "]}\n", "]}{}", "plan/json-after-end", "", FALSE, NULL, NULL },
  { "line comment", "\"version\": 1,", "\"version\": 1, // one\n", "plan/json-comment", "", FALSE,
    NULL, NULL },
  { "block comment", "\"version\": 1,", "\"version\": /* one */ 1,", "plan/json-comment",
    "/version", FALSE, NULL, NULL },
  { "hash comment", "\"version\": 1,", "# one\n\"version\": 1,", "plan/json-comment", "", FALSE,
    NULL, NULL },
  { "single quotes", "\"Base\"", "'Base'", "plan/json-quote", "/title", FALSE, NULL, NULL },
  { "unquoted key", "\"title\"", "title", "plan/json-key", "", FALSE, NULL, NULL },
  { "trailing comma in an array", "[1, 2, 3]", "[1, 2, 3,]", "plan/json-trailing-comma",
    "/structures/0/solid/size", FALSE, NULL, NULL },
  { "trailing comma in an object", "\"with\": \"lid\"}", "\"with\": \"lid\",}",
    "plan/json-trailing-comma", "/programme/2/swap", FALSE, NULL, NULL },
  { "missing comma", "[1, 2, 3]", "[1 2, 3]", "plan/json-missing-comma", "/structures/0/solid/size",
    FALSE, NULL, NULL },
  { "missing colon", "\"title\": \"Base\"", "\"title\" \"Base\"", "plan/json-missing-colon",
    "/title", FALSE, NULL, NULL },
  { "wrong bracket", "[1, 2, 3]", "[1, 2, 3}", "plan/json-missing-comma",
    "/structures/0/solid/size", FALSE, NULL, NULL },
  { "not a number word", "[1, 2, 3]", "[1, NaN, 3]", "plan/json-word", "/structures/0/solid/size/1",
    FALSE, NULL, NULL },
  { "infinity", "[1, 2, 3]", "[1, Infinity, 3]", "plan/json-word", "/structures/0/solid/size/1",
    FALSE, NULL, NULL },
  { "minus infinity", "[1, 2, 3]", "[1, -Infinity, 3]", "plan/json-number",
    "/structures/0/solid/size/1", FALSE, NULL, NULL },
  { "True with a capital", "\"load_turns\": true", "\"load_turns\": True", "plan/json-word",
    "/programme/0/moves/4/load_turns", FALSE, NULL, NULL },
  { "leading zero", "\"version\": 1,", "\"version\": 01,", "plan/json-number", "/version", FALSE,
    NULL, NULL },
  { "leading plus", "\"version\": 1,", "\"version\": +1,", "plan/json-number", "/version", FALSE,
    NULL, NULL },
  { "no digit before the point", "\"survey_tolerance\": 0.01", "\"survey_tolerance\": .01",
    "plan/json-number", "/structures/0/survey_tolerance", FALSE, NULL, NULL },
  { "no digit after the point", "\"version\": 1,", "\"version\": 1.,", "plan/json-number",
    "/version", FALSE, NULL, NULL },
  { "hexadecimal number", "\"version\": 1,", "\"version\": 0x1,", "plan/json-number", "/version",
    FALSE, NULL, NULL },
  { "exponent without digits", "\"version\": 1,", "\"version\": 1e,", "plan/json-number",
    "/version", FALSE, NULL, NULL },
  { "decimal comma", "\"mass_factor\": 1.1", "\"mass_factor\": 1,1", "plan/json-key",
    "/components/0", FALSE, NULL, NULL },
  { "number beyond double", "\"mass\": 5000", "\"mass\": 1e400", "plan/json-number-range",
    "/components/0/mass", FALSE, NULL, NULL },
  { "number far below double's range", "\"mass\": 5000", "\"mass\": -1e999",
    "plan/json-number-range", "/components/0/mass", FALSE, NULL, NULL },
  { "integer that would wrap to 1", "\"version\": 1,", "\"version\": 18446744073709551617,",
    "plan/newer-version", "/version", FALSE, NULL, NULL },
  { "duplicate key", "\"title\": \"Base\"", "\"title\": \"Base\", \"title\": \"Other\"",
    "plan/json-duplicate", "/title", FALSE, NULL, NULL },
  { "duplicate key written otherwise", "\"title\": \"Base\"",
    "\"title\": \"Base\", \"ti\\u0074le\": \"Other\"", "plan/json-duplicate", "/title", FALSE, NULL,
    NULL },
  { "half a surrogate pair", "\"Base\"", "\"\\ud800\"", "plan/json-surrogate", "/title", FALSE,
    NULL, NULL },
  { "the other half", "\"Base\"", "\"\\udc00 Base\"", "plan/json-surrogate", "/title", FALSE, NULL,
    NULL },
  { "two first halves", "\"Base\"", "\"\\ud800\\ud800\"", "plan/json-surrogate", "/title", FALSE,
    NULL, NULL },
  { "escaped NUL", "\"Base\"", "\"Ba\\u0000se\"", "plan/json-zero", "/title", FALSE, NULL, NULL },
  { "escaped NUL in a key", "\"title\"", "\"title\\u0000\"", "plan/json-zero", "/title\xef\xbf\xbd",
    FALSE, NULL, NULL },
  { "unknown escape", "\"Base\"", "\"\\q\"", "plan/json-escape", "/title", FALSE, NULL, NULL },
  { "escape with too few digits", "\"Base\"", "\"\\u12\"", "plan/json-escape", "/title", FALSE,
    NULL, NULL },
  { "line feed in a string", "\"Base\"", "\"Ba\nse\"", "plan/json-control", "/title", FALSE, NULL,
    NULL },
  { "control character between values", "\"version\": 1,", "\"version\": \x01 1,",
    "plan/json-control", "/version", FALSE, NULL, NULL },
  { "too deep", "\"title\": \"Base\"",
    "\"x-deep\": [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
    "plan/json-depth",
    "/x-deep/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/"
    "0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0",
    FALSE, NULL, NULL },
  /* what a plan is */
  { "no object", NULL, "[]", "plan/not-object", "", TRUE, NULL, NULL },
  { "a number", NULL, "12", "plan/not-object", "", TRUE, NULL, NULL },
  { "no format", "\"format\": \"trunnion-plan\", ", "", "plan/missing-key", "", TRUE, "key",
    "format" },
  { "another format", "trunnion-plan", "trunnion-results", "plan/wrong-format", "/format", TRUE,
    "format", "trunnion-results" },
  { "format that is no text", "\"trunnion-plan\"", "1", "plan/not-text", "/format", TRUE, NULL,
    NULL },
  { "no version", "\"version\": 1, ", "", "plan/missing-key", "", TRUE, "key", "version" },
  { "newer version", "\"version\": 1,", "\"version\": 2,", "plan/newer-version", "/version", TRUE,
    NULL, NULL },
  { "version 0", "\"version\": 1,", "\"version\": 0,", "plan/wrong-version", "/version", TRUE, NULL,
    NULL },
  { "version 1.5", "\"version\": 1,", "\"version\": 1.5,", "plan/wrong-version", "/version", TRUE,
    NULL, NULL },
  { "version as text", "\"version\": 1,", "\"version\": \"1\",", "plan/wrong-version", "/version",
    TRUE, NULL, NULL },
  { "unknown key", "\"title\"", "\"titel\"", "plan/unknown-key", "/titel", TRUE, "nearest",
    "title" },
  { "no structures", "\"structures\"", "\"x-structures\"", "plan/missing-key", "", TRUE, "key",
    "structures" },
  { "structures as an object", "\"structures\": [", "\"structures\": {}, \"x-s\": [",
    "plan/not-array", "/structures", TRUE, NULL, NULL },
  { "title that is no text", "\"Base\"", "12", "plan/not-text", "/title", TRUE, NULL, NULL },
  { "negative clearance", "\"keep_clear\": 0.3", "\"keep_clear\": -0.3", "plan/too-small",
    "/keep_clear", TRUE, NULL, NULL },
  { "clearance as text", "\"keep_clear\": 0.3", "\"keep_clear\": \"0.3\"", "plan/not-number",
    "/keep_clear", TRUE, NULL, NULL },
  { "gear", "\"title\": \"Base\"", "\"gear\": [{\"id\": \"sling\"}]", "plan/gear", "/gear", TRUE,
    NULL, NULL },
  { "gear as an object", "\"title\": \"Base\"", "\"gear\": {}", "plan/not-array", "/gear", TRUE,
    NULL, NULL },
  /* structures */
  { "unknown key of a structure", "\"survey_tolerance\"", "\"surveytolerance\"", "plan/unknown-key",
    "/structures/0/surveytolerance", TRUE, "nearest", "survey_tolerance" },
  { "no id", "{\"id\": \"tube\", ", "{", "plan/missing-key", "/structures/2", TRUE, "key", "id" },
  { "id with a capital", "\"id\": \"tube\"", "\"id\": \"Tube\"", "plan/bad-id", "/structures/2/id",
    TRUE, NULL, NULL },
  { "id with an underscore", "\"id\": \"tube\"", "\"id\": \"my_tube\"", "plan/bad-id",
    "/structures/2/id", TRUE, NULL, NULL },
  { "id that begins with a hyphen", "\"id\": \"tube\"", "\"id\": \"-tube\"", "plan/bad-id",
    "/structures/2/id", TRUE, NULL, NULL },
  { "empty id", "\"id\": \"tube\"", "\"id\": \"\"", "plan/bad-id", "/structures/2/id", TRUE, NULL,
    NULL },
  { "reserved id", "\"id\": \"tube\"", "\"id\": \"load\"", "plan/reserved-id", "/structures/2/id",
    TRUE, NULL, NULL },
  { "id used twice", "\"id\": \"tube\"", "\"id\": \"shaft\"", "plan/duplicate-id",
    "/structures/2/id", FALSE, "first", "/structures/1/id" },
  { "component with the id of a structure", "{\"id\": \"cap\"",
    "{\"id\": \"tube\", \"mesh\": {\"file\": \"a.stl\"}, \"at\": null},\n{\"id\": \"cap\"",
    "plan/duplicate-id", "/components/2/id", FALSE, "first", "/structures/2/id" },
  { "no place", "\"depth\": 0.4}, \"at\": {\"position\": [40, 0, 0]}}", "\"depth\": 0.4}}",
    "plan/missing-key", "/structures/4", TRUE, "key", "at" },
  { "place without position", "{\"position\": [40, 0, 0]}", "{}", "plan/missing-key",
    "/structures/4/at", TRUE, "key", "position" },
  { "place as an array", "{\"position\": [40, 0, 0]}", "[40, 0, 0]", "plan/not-object",
    "/structures/4/at", TRUE, NULL, NULL },
  { "position of two numbers", "[40, 0, 0]", "[40, 0]", "plan/not-numbers",
    "/structures/4/at/position", TRUE, NULL, NULL },
  { "position with a text", "[40, 0, 0]", "[40, \"0\", 0]", "plan/not-number",
    "/structures/4/at/position/1", TRUE, NULL, NULL },
  { "position beyond the Earth", "[40, 0, 0]", "[40, 1e9, 0]", "plan/too-large",
    "/structures/4/at/position/1", TRUE, NULL, NULL },
  { "turn of one number", "\"turn\": [10, 20, 30]", "\"turn\": 10", "plan/not-numbers",
    "/structures/0/at/turn", TRUE, NULL, NULL },
  { "unknown key of a place", "\"turn\": [10, 20, 30]", "\"turns\": [10, 20, 30]",
    "plan/unknown-key", "/structures/0/at/turns", TRUE, "nearest", "turn" },
  { "negative survey tolerance", "\"survey_tolerance\": 0.01", "\"survey_tolerance\": -0.01",
    "plan/too-small", "/structures/0/survey_tolerance", TRUE, NULL, NULL },
  { "neither solid nor mesh", "\"mesh\": {\"file\": \"cap.obj\"}, ", "", "plan/solid-or-mesh",
    "/components/2", TRUE, NULL, NULL },
  { "solid and mesh", "\"mesh\": {\"file\": \"cap.obj\"}",
    "\"mesh\": {\"file\": \"cap.obj\"}, \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1.5]}",
    "plan/solid-and-mesh", "/components/2", TRUE, NULL, NULL },
  /* solids */
  { "no kind", "\"kind\": \"tube\", ", "", "plan/missing-key", "/structures/2/solid", TRUE, "key",
    "kind" },
  { "unknown kind", "\"kind\": \"tube\"", "\"kind\": \"tub\"", "plan/unknown-word",
    "/structures/2/solid/kind", TRUE, "nearest", "tube" },
  { "kind as a number", "\"kind\": \"tube\"", "\"kind\": 3", "plan/not-text",
    "/structures/2/solid/kind", TRUE, NULL, NULL },
  { "key of another kind", "\"inner_diameter\": 1.2", "\"inner_diameter\": 1.2, \"depth\": 3",
    "plan/unknown-key", "/structures/2/solid/depth", TRUE, NULL, NULL },
  { "box of no height", "[1, 2, 3]", "[1, 2, 0]", "plan/not-above", "/structures/0/solid/size/2",
    TRUE, NULL, NULL },
  { "negative box", "[1, 2, 3]", "[-1, 2, 3]", "plan/not-above", "/structures/0/solid/size/0", TRUE,
    NULL, NULL },
  { "box with two sizes", "[1, 2, 3]", "[1, 2]", "plan/not-numbers", "/structures/0/solid/size",
    TRUE, NULL, NULL },
  { "cylinder without height", "\"diameter\": 1, \"height\": 1", "\"diameter\": 1",
    "plan/missing-key", "/structures/7/solid/parts/1/solid", TRUE, "key", "height" },
  { "tube with no wall", "\"inner_diameter\": 1.2", "\"inner_diameter\": 1.5",
    "shape/inner-not-smaller", "/structures/2/solid/inner_diameter", FALSE, NULL, NULL },
  { "shaft without floor", ", \"floor\": 1", "", "plan/missing-key", "/structures/1/solid", TRUE,
    "key", "floor" },
  { "negative floor", "\"floor\": 1", "\"floor\": -1", "plan/too-small",
    "/structures/1/solid/floor", TRUE, NULL, NULL },
  { "pit with three sizes", "[5, 4]", "[5, 4, 3]", "plan/not-numbers", "/structures/3/solid/size",
    TRUE, NULL, NULL },
  { "beam of no length", "[4, 0, 6]", "[0, 0, 1]", "shape/no-length", "/structures/4/solid/to",
    FALSE, NULL, NULL },
  { "beam of no width", "\"width\": 0.35", "\"width\": 0", "plan/not-above",
    "/structures/4/solid/width", TRUE, NULL, NULL },
  { "opening of both kinds", "{\"circle\": [1, 1, 10]}",
    "{\"circle\": [1, 1, 10], \"rect\": [20, 20, 6, 5.5]}", "plan/circle-or-rect",
    "/structures/5/solid/openings/0", TRUE, NULL, NULL },
  { "opening of no kind", "{\"circle\": [1, 1, 10]}", "{}", "plan/circle-or-rect",
    "/structures/5/solid/openings/0", TRUE, NULL, NULL },
  { "circle of four numbers", "[1, 1, 10]", "[1, 1, 10, 2]", "plan/not-numbers",
    "/structures/5/solid/openings/0/circle", TRUE, NULL, NULL },
  { "circle of no size", "[1, 1, 10]", "[1, 1, 0]", "plan/not-above",
    "/structures/5/solid/openings/0/circle/2", TRUE, NULL, NULL },
  { "negative rectangle", "[20, 20, 6, 5]", "[20, 20, 6, -5]", "plan/not-above",
    "/structures/5/solid/openings/1/rect/3", TRUE, NULL, NULL },
  { "opening beyond the edge", "[20, 20, 6, 5]", "[44, 20, 6, 5]", "shape/opening-outside",
    "/structures/5/solid/openings/1/rect", FALSE, NULL, NULL },
  { "openings that meet", "[20, 20, 6, 5]", "[4, 2, 6, 5]", "shape/openings-meet",
    "/structures/5/solid/openings/1/rect", FALSE, NULL, NULL },
  { "openings as an object", "\"openings\": [{\"circle\": [1, 1, 10]}, {\"rect\": [20, 20, 6, 5]}]",
    "\"openings\": {}", "plan/not-array", "/structures/5/solid/openings", TRUE, NULL, NULL },
  { "no conductors", "{\"from\": [-40, 25, 14], \"to\": [40, 25, 14], \"sag\": 1.25}", "",
    "plan/empty", "/structures/6/solid/conductors", TRUE, NULL, NULL },
  { "negative sag", "\"sag\": 1.25", "\"sag\": -1.25", "plan/too-small",
    "/structures/6/solid/conductors/0/sag", TRUE, NULL, NULL },
  { "no sag", ", \"sag\": 1.25", "", "plan/missing-key", "/structures/6/solid/conductors/0", TRUE,
    "key", "sag" },
  { "negative voltage", "\"voltage_kv\": 20", "\"voltage_kv\": -20", "plan/not-above",
    "/structures/6/solid/voltage_kv", TRUE, NULL, NULL },
  { "two parts of one id", "\"id\": \"right\"", "\"id\": \"left\"", "plan/duplicate-id",
    "/structures/7/solid/parts/1/id", FALSE, NULL, NULL },
  { "part without a solid",
    "{\"id\": \"right\", \"solid\": {\"kind\": \"cylinder\", \"diameter\": 1, \"height\": 1},",
    "{\"id\": \"right\",", "plan/missing-key", "/structures/7/solid/parts/1", TRUE, "key",
    "solid" },
  { "unknown kind in a group", "\"kind\": \"cylinder\", \"diameter\": 1,",
    "\"kind\": \"cylindre\", \"diameter\": 1,", "plan/unknown-word",
    "/structures/7/solid/parts/1/solid/kind", TRUE, "nearest", "cylinder" },
  /* mesh files */
  { "no file", "\"file\": \"lid.stl\", ", "", "plan/missing-key", "/components/1/mesh", TRUE, "key",
    "file" },
  { "empty name", "\"lid.stl\"", "\"\"", "plan/mesh-no-name", "/components/1/mesh/file", TRUE, NULL,
    NULL },
  { "absolute path", "\"lid.stl\"", "\"/lid.stl\"", "plan/mesh-absolute", "/components/1/mesh/file",
    FALSE, NULL, NULL },
  { "drive letter", "\"lid.stl\"", "\"C:/lid.stl\"", "plan/mesh-absolute",
    "/components/1/mesh/file", FALSE, NULL, NULL },
  { "backslash", "\"lid.stl\"", "\"parts\\\\lid.stl\"", "plan/mesh-backslash",
    "/components/1/mesh/file", TRUE, NULL, NULL },
  { "path that leads out", "\"lid.stl\"", "\"a/../../lid.stl\"", "plan/mesh-outside",
    "/components/1/mesh/file", FALSE, NULL, NULL },
  { "path that leads out and back", "\"lid.stl\"", "\"../plan/lid.stl\"", "plan/mesh-outside",
    "/components/1/mesh/file", FALSE, NULL, NULL },
  { "unknown unit", "\"mm\"", "\"mil\"", "plan/unknown-word", "/components/1/mesh/unit", TRUE, NULL,
    NULL },
  { "unknown axis", "\"up\": \"z\"", "\"up\": \"x\"", "plan/unknown-word", "/components/1/mesh/up",
    TRUE, NULL, NULL },
  { "unknown key of a mesh", "\"unit\"", "\"units\"", "plan/unknown-key",
    "/components/1/mesh/units", TRUE, "nearest", "unit" },
  /* components */
  { "no mass at all", "\"mass\": 5000", "\"mass\": 0", "plan/not-above", "/components/0/mass", TRUE,
    NULL, NULL },
  { "negative mass", "\"mass\": 5000", "\"mass\": -5000", "plan/not-above", "/components/0/mass",
    TRUE, NULL, NULL },
  { "mass with its unit", "\"mass\": 5000", "\"mass\": \"5 t\"", "plan/not-number",
    "/components/0/mass", TRUE, NULL, NULL },
  { "mass factor below 1", "\"mass_factor\": 1.1", "\"mass_factor\": 0.9", "plan/too-small",
    "/components/0/mass_factor", TRUE, NULL, NULL },
  { "centre of gravity of two numbers", "\"cog\": [0, 0, 3]", "\"cog\": [0, 0]", "plan/not-numbers",
    "/components/0/cog", TRUE, NULL, NULL },
  { "negative box of the centre of gravity", "[0.1, 0.1, 0.2]", "[0.1, -0.1, 0.2]",
    "plan/too-small", "/components/0/cog_box/1", TRUE, NULL, NULL },
  { "points as an array", "\"points\": {\"lug\": [0, 0, 6.5], \"tail\": [0.5, 0, 0.5]}",
    "\"points\": []", "plan/not-object", "/components/0/points", TRUE, NULL, NULL },
  { "point of two numbers", "\"lug\": [0, 0, 6.5]", "\"lug\": [0, 0]", "plan/not-numbers",
    "/components/0/points/lug", TRUE, NULL, NULL },
  { "mass source that is no text", "\"drawing\"", "7", "plan/not-text", "/components/0/mass_source",
    TRUE, NULL, NULL },
  /* lifts */
  { "neither lift nor change", "\"change\": \"box-off\", ", "", "plan/lift-or-change",
    "/programme/3", TRUE, NULL, NULL },
  { "lift and change", "\"change\": \"box-off\"", "\"change\": \"box-off\", \"lift\": \"box-up\"",
    "plan/lift-or-change", "/programme/3", TRUE, NULL, NULL },
  { "id of a step used twice", "\"change\": \"lid-on\"", "\"change\": \"pump-in\"",
    "plan/duplicate-id", "/programme/1/change", FALSE, "first", "/programme/0/lift" },
  { "bad id of a lift", "\"lift\": \"pump-in\"", "\"lift\": \"pump in\"", "plan/bad-id",
    "/programme/0/lift", TRUE, NULL, NULL },
  { "unknown component", "\"component\": \"pump\"", "\"component\": \"pimp\"", "plan/unknown-id",
    "/programme/0/component", FALSE, "nearest", "pump" },
  { "structure as the load", "\"component\": \"pump\"", "\"component\": \"tube\"",
    "plan/not-component", "/programme/0/component", FALSE, NULL, NULL },
  { "no hook point", ", \"hook_point\": \"lug\"", "", "plan/missing-key", "/programme/0", TRUE,
    "key", "hook_point" },
  { "unknown point", "\"hook_point\": \"lug\"", "\"hook_point\": \"lugg\"", "plan/unknown-point",
    "/programme/0/hook_point", FALSE, "nearest", "lug" },
  { "hook point as a number", "\"hook_point\": \"lug\"", "\"hook_point\": 6.5", "plan/not-point",
    "/programme/0/hook_point", TRUE, NULL, NULL },
  { "hook point of two numbers", "\"hook_point\": \"lug\"", "\"hook_point\": [0, 6.5]",
    "plan/not-numbers", "/programme/0/hook_point", TRUE, NULL, NULL },
  { "unknown key of a lift", "\"tolerance\"", "\"tolerances\"", "plan/unknown-key",
    "/programme/0/tolerances", TRUE, "nearest", "tolerance" },
  { "negative tolerance", "\"position\": 0.05", "\"position\": -0.05", "plan/too-small",
    "/programme/0/tolerance/position", TRUE, NULL, NULL },
  { "negative tilt tolerance", "\"tilt_deg\": 0.25", "\"tilt_deg\": -0.25", "plan/too-small",
    "/programme/0/tolerance/tilt_deg", TRUE, NULL, NULL },
  { "clearance from an unknown thing", "{\"box\": 0.1}", "{\"bix\": 0.1}", "plan/unknown-id",
    "/programme/0/keep_clear/bix", FALSE, "nearest", "box" },
  { "clearance from an unknown thing with x-", "{\"box\": 0.1}", "{\"x-box\": 0.1}",
    "plan/unknown-id", "/programme/0/keep_clear/x-box", FALSE, "nearest", "box" },
  { "clearance from the load itself", "{\"box\": 0.1}", "{\"pump\": 0.1}", "plan/clear-of-itself",
    "/programme/0/keep_clear/pump", FALSE, NULL, NULL },
  { "negative clearance from one thing", "{\"box\": 0.1}", "{\"box\": -0.1}", "plan/too-small",
    "/programme/0/keep_clear/box", TRUE, NULL, NULL },
  { "clearance as a text", "{\"box\": 0.1}", "\"0.1\"", "plan/not-keep-clear",
    "/programme/0/keep_clear", TRUE, NULL, NULL },
  { "start that is null", "{\"position\": [50, 0, 1.5]}", "null", "plan/not-object",
    "/programme/0/start", TRUE, NULL, NULL },
  /* moves */
  { "unknown move", "\"hoist\"", "\"host\"", "plan/unknown-word", "/programme/0/moves/0/do", TRUE,
    "nearest", "hoist" },
  { "no move word", "\"do\": \"hoist\", ", "", "plan/missing-key", "/programme/0/moves/0", TRUE,
    "key", "do" },
  { "no seconds", ", \"seconds\": 60", "", "plan/missing-key", "/programme/0/moves/0", TRUE, "key",
    "seconds" },
  { "no time", "\"seconds\": 60", "\"seconds\": 0", "plan/not-above",
    "/programme/0/moves/0/seconds", TRUE, NULL, NULL },
  { "negative wait", "\"plumb?\", \"seconds\": 0", "\"plumb?\", \"seconds\": -1", "plan/too-small",
    "/programme/0/moves/7/seconds", TRUE, NULL, NULL },
  { "key of another move", "\"by\": 2, ", "\"by\": 2, \"turn\": 3, ", "plan/unknown-key",
    "/programme/0/moves/0/turn", TRUE, NULL, NULL },
  { "hoist along three axes", "\"by\": 2", "\"by\": [0, 0, 2]", "plan/not-number",
    "/programme/0/moves/0/by", TRUE, NULL, NULL },
  { "travel upwards", "[3, 4]", "[3, 4, 5]", "plan/not-numbers", "/programme/0/moves/1/by", TRUE,
    NULL, NULL },
  { "turn about an unknown point", "\"about\": \"tail\"", "\"about\": \"tale\"",
    "plan/unknown-point", "/programme/0/moves/2/about", FALSE, "nearest", "tail" },
  { "slew without centre", "\"centre\": [5, -5], ", "", "plan/missing-key", "/programme/0/moves/4",
    TRUE, "key", "centre" },
  { "slew about a point of the load", "[5, -5]", "\"lug\"", "plan/not-numbers",
    "/programme/0/moves/4/centre", TRUE, NULL, NULL },
  { "load that turns by 1", "\"load_turns\": true", "\"load_turns\": 1", "plan/not-boolean",
    "/programme/0/moves/4/load_turns", TRUE, NULL, NULL },
  { "tilt without axis", "\"axis\": 12, ", "", "plan/missing-key", "/programme/0/moves/5", TRUE,
    "key", "axis" },
  { "axis as a vector", "\"axis\": 12", "\"axis\": [1, 0, 0]", "plan/not-number",
    "/programme/0/moves/5/axis", TRUE, NULL, NULL },
  { "more turns than any load makes", "\"by\": 5,", "\"by\": 1e6,", "plan/too-large",
    "/programme/0/moves/5/by", TRUE, NULL, NULL },
  { "unknown guide", "\"head-plumb\"", "\"head-plum\"", "plan/unknown-word",
    "/programme/0/moves/6/guide", TRUE, "nearest", "head-plumb" },
  { "two hooks that carry", "\"head\": \"lug\"", "\"carry\": [0, 0, 1], \"head\": \"lug\"",
    "plan/guide-key", "/programme/0/moves/6/carry", TRUE, NULL, NULL },
  { "two hooks about a point", "\"head\": \"lug\"", "\"about\": \"lug\", \"head\": \"lug\"",
    "plan/guide-key", "/programme/0/moves/6/about", TRUE, NULL, NULL },
  { "two hooks without a tail", "\"tail\": \"tail\",", "", "plan/missing-key",
    "/programme/0/moves/6", TRUE, "key", "tail" },
  { "head and tail in one", "\"tail\": \"tail\"", "\"tail\": \"lug\"", "plan/head-is-tail",
    "/programme/0/moves/6/tail", FALSE, NULL, NULL },
  { "fixed guide with a head", "\"axis\": 12", "\"axis\": 12, \"head\": \"lug\"", "plan/guide-key",
    "/programme/0/moves/5/head", TRUE, NULL, NULL },
  { "hold point that is no text", "\"plumb?\"", "true", "plan/not-text",
    "/programme/0/moves/7/hold_point", TRUE, NULL, NULL },
  /* seats */
  { "seat on an unknown thing", "\"stand/left\"", "\"stant/left\"", "plan/unknown-id",
    "/programme/0/seats/0/on", FALSE, "nearest", "stand" },
  { "seat on an unknown part", "\"stand/left\"", "\"stand/lefft\"", "plan/unknown-part",
    "/programme/0/seats/0/on", FALSE, "nearest", "left" },
  { "seat on the floor of an open pit", "\"stand/left\"", "\"pit/floor\"", "plan/unknown-part",
    "/programme/0/seats/0/on", FALSE, "nearest", "wall" },
  { "seat on a part of a box", "\"stand/left\"", "\"box/top\"", "plan/no-parts",
    "/programme/0/seats/0/on", FALSE, NULL, NULL },
  { "seat on a part of a component", "\"stand/left\"", "\"lid/top\"", "plan/no-parts",
    "/programme/0/seats/0/on", FALSE, NULL, NULL },
  { "seat on the load itself", "\"stand/left\"", "\"pump\"", "plan/seat-on-itself",
    "/programme/0/seats/0/on", FALSE, NULL, NULL },
  { "unknown end", "\"at\": \"start\"", "\"at\": \"begin\"", "plan/unknown-word",
    "/programme/0/seats/0/at", TRUE, NULL, NULL },
  { "no end", ", \"at\": \"end\"", "", "plan/missing-key", "/programme/0/seats/1", TRUE, "key",
    "at" },
  { "no fit", "\"fit\": 0.01", "\"fit\": 0", "plan/not-above", "/programme/0/seats/0/fit", TRUE,
    NULL, NULL },
  { "left at less than is to be kept", "\"until_clear\": 0.5", "\"until_clear\": 0.3",
    "plan/until-clear", "/programme/0/seats/0/until_clear", FALSE, NULL, NULL },
  { "two seats on one thing", "\"shaft/floor\", \"at\": \"end\"",
    "\"stand/left\", \"at\": \"both\"", "plan/duplicate-seat", "/programme/0/seats/1", FALSE, NULL,
    NULL },
  /* changes */
  { "nothing changed", ", \"remove\": \"box\"", "", "plan/change-kind", "/programme/3", TRUE, NULL,
    NULL },
  { "two changes in one", "\"remove\": \"box\"", "\"remove\": \"box\", \"add\": \"lid\"",
    "plan/change-kind", "/programme/3", TRUE, NULL, NULL },
  { "removal to a place", "\"remove\": \"box\"",
    "\"remove\": \"box\", \"at\": {\"position\": [0, 0, 7]}", "plan/change-at", "/programme/3/at",
    TRUE, NULL, NULL },
  { "removal of an unknown thing", "\"remove\": \"box\"", "\"remove\": \"bax\"", "plan/unknown-id",
    "/programme/3/remove", FALSE, "nearest", "box" },
  { "swap without the new one", ", \"with\": \"lid\"", "", "plan/missing-key", "/programme/2/swap",
    TRUE, "key", "with" },
  { "swap with itself", "\"with\": \"lid\"", "\"with\": \"cap\"", "plan/swap-same",
    "/programme/2/swap/with", FALSE, NULL, NULL },
  { "swap of a structure", "\"component\": \"cap\"", "\"component\": \"tube\"",
    "plan/not-component", "/programme/2/swap/component", FALSE, NULL, NULL },
  { "swap as a text", "{\"component\": \"cap\", \"with\": \"lid\"}", "\"cap\"", "plan/not-object",
    "/programme/2/swap", TRUE, NULL, NULL },
};

static char *
make_text (const BadPlan *bad)
{
  if (bad->from == NULL)
    return g_strdup (bad->to);
  const char *at = strstr (PLAN_BASE, bad->from);
  g_assert_nonnull (at);
  g_assert_null (strstr (at + 1, bad->from));
  g_autofree char *before = g_strndup (PLAN_BASE, (gsize)(at - PLAN_BASE));
  return g_strconcat (before, bad->to, at + strlen (bad->from), NULL);
}

static void
explain (const TrnDiags *diags)
{
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_test_message ("line %u: %s at “%s”", diag->line, diag->code, diag->pointer);
    }
}

static void
test_bad (gconstpointer data)
{
  const BadPlan *bad = data;
  g_autofree char *text = make_text (bad);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_parse (text, strlen (text), "bad.trunnion", NULL, NULL, diags);
  explain (diags);
  g_assert_null (plan);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_ERROR);
  g_assert_cmpstr (diag->code, ==, bad->code);
  g_assert_cmpstr (diag->pointer, ==, bad->pointer);
  g_assert_cmpstr (diag->file, ==, "bad.trunnion");
  g_assert_cmpuint (diag->line, >=, 1);
  if (bad->value_name == NULL)
    return;
  const TrnDiagValue *value = trn_diag_get (diag, bad->value_name);
  g_assert_nonnull (value);
  g_assert_cmpstr (value->text, ==, bad->value);
}

/* The plan that all others are made from is good, and says nothing. */
static void
test_base (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (PLAN_BASE, strlen (PLAN_BASE), "base.trunnion", NULL, NULL, diags);
  explain (diags);
  g_assert_nonnull (plan);
  g_assert_cmpuint (diags->items->len, ==, 0);
}

/* Twelve faults, several of them in one object, two of which hide what stands below them; each is
 * told once, with its own line, in the order of the file. */
static void
test_many (void)
{
  static const char text[] = "{\"format\": \"trunnion-plan\", \"version\": 1,\n"
                             "\"structures\": [\n"
                             "{\"id\": \"A\", \"colour\": 1,\n"
                             "\"solid\": {\"kind\": \"box\",\n"
                             "\"size\": [1, -2,\n"
                             "\"3\"]}},\n"
                             "7],\n"
                             "\"components\": [{\"id\": \"pump\",\n"
                             "\"mass\": 1e999, \"mass\": 2,\n"
                             "\"solid\": {\"kind\": \"cube\", \"size\": 3}, \"at\": null}],\n"
                             "\"programme\": [{\"lift\": \"up\", \"component\": \"pump\",\n"
                             "\"hook_point\": \"lug\", \"moves\": []}],\n"
                             "\"keep_clear\": -1}";
  static const struct
  {
    guint line;
    const char *code, *pointer;
  } expected[] = {
    { 3, "plan/unknown-key", "/structures/0/colour" },
    { 3, "plan/bad-id", "/structures/0/id" },
    { 3, "plan/missing-key", "/structures/0" },
    { 5, "plan/not-above", "/structures/0/solid/size/1" },
    { 6, "plan/not-number", "/structures/0/solid/size/2" },
    { 7, "plan/not-object", "/structures/1" },
    { 9, "plan/json-number-range", "/components/0/mass" },
    { 9, "plan/json-duplicate", "/components/0/mass" },
    { 10, "plan/unknown-word", "/components/0/solid/kind" },
    { 12, "plan/no-points", "/programme/0/hook_point" },
    { 12, "plan/empty", "/programme/0/moves" },
    { 13, "plan/too-small", "/keep_clear" },
  };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_plan_parse (text, strlen (text), "many.trunnion", NULL, NULL, diags));
  explain (diags);
  g_assert_cmpuint (diags->items->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_assert_cmpstr (diag->code, ==, expected[i].code);
      g_assert_cmpstr (diag->pointer, ==, expected[i].pointer);
      g_assert_cmpuint (diag->line, ==, expected[i].line);
    }
}

static void
assert_too_many (const char *text, const char *pointer)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags));
  explain (diags);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "plan/too-many");
  g_assert_cmpstr (diag->pointer, ==, pointer);
}

/* 1001 structures, which are not looked at one by one then, and 1001 named points. What refers to
 * them may be right, and is not blamed. */
static void
test_too_many (void)
{
  g_autoptr (GString) zeros = g_string_new ("0"), points = g_string_new ("\"p\": [0, 0, 0]");
  for (guint i = 0; i < 1000; i++)
    {
      g_string_append (zeros, ",0");
      g_string_append_printf (points, ", \"p%u\": [0, 0, 0]", i);
    }
  g_autofree char *structures
      = g_strconcat ("\"structures\": [", zeros->str, "], \"x-s\": [", NULL);
  g_autofree char *named = g_strconcat ("\"points\": {", points->str, "}, \"x-p\": {", NULL);
  const BadPlan many_structures = { .from = "\"structures\": [", .to = structures };
  const BadPlan many_points = { .from = "\"points\": {", .to = named };
  g_autofree char *first = make_text (&many_structures), *second = make_text (&many_points);
  assert_too_many (first, "/structures");
  assert_too_many (second, "/components/0/points");
}

/* An error that the list held before does not count against a plan. */
static void
test_earlier_error (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  trn_diags_add (diags, TRN_SEVERITY_ERROR, "plan/cannot-read", NULL);
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (PLAN_BASE, strlen (PLAN_BASE), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
}

/* The faulty texts that a schema can refuse, as an array of {"name", "text"}. */
static int
list (void)
{
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_ARRAY);
  json_node_take_array (root, json_array_new ());
  for (guint i = 0; i < G_N_ELEMENTS (bad_plans); i++)
    {
      if (!bad_plans[i].schema_sees)
        continue;
      g_autofree char *text = make_text (&bad_plans[i]);
      JsonObject *item = json_object_new ();
      json_object_set_string_member (item, "name", bad_plans[i].name);
      json_object_set_string_member (item, "text", text);
      json_array_add_object_element (json_node_get_array (root), item);
    }
  g_autofree char *text = trn_json_to_text (root, NULL);
  fputs (text, stdout);
  return 0;
}

int
main (int argc, char **argv)
{
  if (argc == 2 && g_str_equal (argv[1], "--list"))
    return list ();
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/bad/base", test_base);
  g_test_add_func ("/plan/bad/many", test_many);
  g_test_add_func ("/plan/bad/too-many", test_too_many);
  g_test_add_func ("/plan/bad/earlier-error", test_earlier_error);
  for (guint i = 0; i < G_N_ELEMENTS (bad_plans); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/bad/%s", bad_plans[i].name);
      g_test_add_data_func (path, &bad_plans[i], test_bad);
    }
  return g_test_run ();
}
