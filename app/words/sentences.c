/* One row a code, sorted by folder, then as the folder says them. A sentence tells what is wrong
 * and what to do; the place (file, line, JSON Pointer) is put before it by words.c. A value in
 * {braces} that has a unit brings it along. */
#include "sentences.h"

#include <glib.h>
#include <string.h>

#define N_(text) text

static const struct
{
  const char *code, *template;
} sentences[] = {
  /* base */
  { "base/cannot-write", N_ ("“{file}” cannot be written ({reason}); choose another place or make "
                             "room, nothing there was changed.") },

  /* shape */
  { "shape/not-finite", N_ ("This is no finite number; give a number.") },
  { "shape/not-positive", N_ ("This must be greater than 0; give its true value.") },
  { "shape/negative", N_ ("This must not be less than 0; give its true value, or 0.") },
  { "shape/too-small",
    N_ ("This is less than 0.001 mm; check the number and its unit, which is metres.") },
  { "shape/too-large",
    N_ ("This is beyond 100 km; check the number and its unit, which is metres.") },
  { "shape/inner-not-smaller", N_ ("The inner diameter is not smaller than the outer one; give a "
                                   "tube with a wall.") },
  { "shape/no-length", N_ ("Both ends are in the same place; move one of them.") },
  { "shape/sag-too-great",
    N_ ("With this sag the conductor would fold. The sag may be at most the level distance of its "
        "ends, and no bend tighter than two diameters; check the sag and the ends.") },
  { "shape/opening-outside",
    N_ ("The opening reaches the edge of the ground; make the ground larger, or move the opening "
        "inwards.") },
  { "shape/openings-meet", N_ ("The opening touches or overlaps one listed before it; move them "
                               "apart, or make one opening of both.") },
  { "shape/empty", N_ ("Nothing is listed here; list at least one.") },
  { "shape/too-many", N_ ("More than 1000 are listed here; divide them between several "
                          "structures.") },
  { "shape/too-deep", N_ ("Groups lie within groups more than four levels deep; list the parts in "
                          "fewer levels.") },
  { "shape/bad-part-id", N_ ("The id of a part consists of small letters a to z, digits and "
                             "hyphens, and does not begin with a hyphen; choose such an id.") },
  { "shape/same-part-id",
    N_ ("Another part of this group has the same id; give each part its own.") },
  { "shape/too-many-triangles",
    N_ ("This shape would take too many triangles; divide it between several structures, or check "
        "its sizes.") },

  /* import */
  { "import/format",
    N_ ("Files that end in “{extension}” are not read; export the model as OBJ, STL, "
        "PLY, glTF, GLB, DAE, 3DS, DXF, FBX or AMF.") },
  { "import/no-extension", N_ ("Its name does not end in what kind of file it is, such as “.stl”; "
                               "name it as the program did that made it.") },
  { "import/cannot-open",
    N_ ("It cannot be read ({reason}); check its name and who may read it.") },
  { "import/no-file", N_ ("It is a folder or a device, not a file; name the mesh file itself.") },
  { "import/empty", N_ ("It is empty; export the model again.") },
  { "import/changed",
    N_ ("It changed while it was read; try again when whoever writes it is done.") },
  { "import/reference-changed",
    N_ ("It refers to “{reference}”, which changed while it was read; try again when whoever "
        "writes it is done.") },
  { "import/unit-missing",
    N_ ("It does not say in which unit it is; give “unit” in the plan: \"m\" (it is then {m} in "
        "its greatest extent), \"cm\" ({cm}), \"mm\" ({mm}), \"ft\" ({ft}) or \"in\" ({in}).") },
  { "import/up-missing", N_ ("It does not say which axis is up; give “up” in the plan: \"z\" or "
                             "\"y\".") },
  { "import/unit-contradicts",
    N_ ("It declares the unit “{declared}”, the plan gives “{given}”: the "
        "plan’s is used; check the size of the component.") },
  { "import/up-contradicts",
    N_ ("It declares that “{declared}” is up, the plan gives “{given}”: the "
        "plan’s is used; check that the component stands upright.") },
  { "import/precision", N_ ("Coordinates as large as {largest} may be off by {loss} in the single "
                            "precision of mesh files, more than {limit}; check “unit” first. If it "
                            "is right, move the model near its origin, export it again, and place "
                            "it with “at” in the plan.") },
  { "import/cancelled", N_ ("Reading was cancelled; start again to read it.") },
  { "import/wall-time", N_ ("Reading took longer than {limit}; export the model with fewer "
                            "triangles.") },
  { "import/cpu-time",
    N_ ("Reading took more than {limit} of processor time; the file is damaged or "
        "too large: export it again, with fewer triangles.") },
  { "import/no-helper", N_ ("The program trunnion-import, which reads mesh files, was not found; "
                            "install Trunnion again, or name it in the environment variable "
                            "TRUNNION_IMPORT_HELPER.") },
  { "import/cannot-start", N_ ("The program trunnion-import, which reads mesh files, cannot be "
                               "started ({reason}); install Trunnion again.") },
  { "import/helper-failed", N_ ("The program trunnion-import ended with status {status} and no "
                                "answer; try again with more free memory, then install Trunnion "
                                "again.") },
  { "import/crashed",
    N_ ("The reader broke down on it ({signal}); it is damaged or too large: open it "
        "in the program that made it and export it again.") },
  { "import/bad-answer",
    N_ ("The reader’s answer does not hold ({fault}), so nothing of it is used; "
        "export the model again in another of the formats OBJ, STL, PLY, glTF "
        "or GLB.") },
  { "import/damaged", N_ ("It is damaged or not what its name says ({reason}); export the model "
                          "again.") },
  { "import/memory", N_ ("Reading needs more than {limit} of memory; export the model with fewer "
                         "triangles.") },
  { "import/too-many-triangles", N_ ("It has {triangles} triangles, more than the {limit} that are "
                                     "read; export it with a coarser mesh, or leave out inner "
                                     "parts.") },
  { "import/no-faces", N_ ("It has no faces; export the surfaces of the model as triangles.") },
  { "import/film-only",
    N_ ("It has no faces, only what a film is made with ({looks} lights and cameras, {animations} "
        "animations); export the surfaces of the model as triangles.") },
  { "import/none-placed",
    N_ ("None of its meshes ({meshes}) is placed anywhere, so that it shows nothing; place them in "
        "the model and export it again.") },
  { "import/points-only", N_ ("It has only points and lines ({points} points, {lines} lines), no "
                              "surface to measure to; export the surfaces of the model as "
                              "triangles.") },
  { "import/outside-folder", N_ ("It refers to “{reference}” outside its own folder, which is not "
                                 "read; put that file beside it, or export one GLB file.") },
  { "import/reference-missing",
    N_ ("It refers to “{reference}”, which cannot be opened; put that file "
        "beside it, or export one GLB file.") },
  { "import/not-finite",
    N_ ("The mesh “{mesh}” has a coordinate that is no finite number; repair the "
        "model and export it again.") },
  { "import/index-range",
    N_ ("“{mesh}” refers to number {index} of only {count}; the file is damaged: "
        "export it again.") },
  { "import/faces-lost",
    N_ ("It has {in_file} faces, of which only {read} could be read; export the "
        "model again, as triangles, perhaps in another format.") },
  { "import/polygon",
    N_ ("A face of “{mesh}” with {corners} corners crosses itself or is bent too much "
        "to be cut into triangles; export the model as triangles.") },
  { "import/transform",
    N_ ("The node “{node}” is placed by a matrix that is not a move, turn, scale "
        "or shear; export the model with plain placements.") },
  { "import/unsupported",
    N_ ("It uses {feature}, which is not read; export the model without it.") },
  { "import/count", N_ ("It claims {count} of “{element}”, more than it can hold; it is damaged: "
                        "export the model again.") },
  { "import/dropped", N_ ("Points and lines in it ({points} and {lines}) have no surface and were "
                          "left out; if they stand for something solid, export that as "
                          "triangles.") },
  { "import/unused",
    N_ ("Meshes in it that are placed nowhere were left out ({meshes}); place them in "
        "the model if they belong to it.") },
  { "import/reader",
    N_ ("The reader complained ({times} ×), first: {text}; check that the model is "
        "complete.") },
  { "import/part-missing", N_ ("It has no part “{part}”; the parts with a name are {parts}. Name "
                               "one of them, or leave “parts” out for all.") },
  { "import/no-named-part", N_ ("It has no part “{part}”: none of its parts has a name. Leave "
                                "“parts” out for all of it, or export the model with names.") },
  { "import/pieces-turned",
    N_ ("Closed pieces in it were inside out and have been turned ({count}); look at it, or export "
        "the model with its faces outwards.") },
  { "import/duplicates-dropped",
    N_ ("Triangles that stood in it more than once were dropped ({count}); nothing is missing.") },
  { "import/lines-dropped",
    N_ ("Triangles with two equal corners, along edges of others, were dropped ({count}); nothing "
        "is missing.") },
  { "import/unconfined",
    N_ ("The reader of mesh files could not be shut in by the system ({reason}): its memory and "
        "its "
        "time are limited, what it may do is not. Read only files from people you trust here, or "
        "use a system that filters calls (seccomp).") },
  { "import/not-counted",
    N_ ("The faces could not be held against a count made in the file itself: compare the number "
        "of triangles, and the picture, with what the model should have.") },
  { "import/animated",
    N_ ("It holds an animation, which is not followed: its rest pose is taken, in which nothing "
        "has moved yet. If it should stand as at another moment, export it as it stands then.") },
  { "import/warped",
    N_ ("A polygon of “{mesh}” is {warp} from flat; which way its surface bends the file does not "
        "say, so it may lie elsewhere by as much, which is taken off every clearance of the model: "
        "export it as triangles.") },
  { "import/bent",
    N_ ("{polygons} of its polygons cross themselves or are bent, so that their surface is not "
        "sure: every triangle between their corners is taken as an obstacle. Export the model as "
        "triangles.") },
  { "import/experimental",
    N_ ("Reading {format} is experimental: parts may be missing. Compare size, parts and picture "
        "with the drawing, or export the model as OBJ, STL, PLY or GLB.") },

  /* plan */
  { "plan/cannot-read", N_ ("“{file}” cannot be read ({reason}); check the name and the rights.") },
  { "plan/no-file",
    N_ ("“{file}” is a folder, a pipe or a device, not a file; name the file itself.") },
  { "plan/json-too-long", N_ ("The file is longer than {limit}; a plan holds no meshes, name their "
                              "files instead.") },
  { "plan/json-mark",
    N_ ("The file begins with a byte order mark; save it as UTF-8 without one.") },
  { "plan/json-encoding", N_ ("Byte {byte} is no valid UTF-8; save the file as UTF-8.") },
  { "plan/json-empty", N_ ("The file is empty; it has to hold a JSON object.") },
  { "plan/json-cut", N_ ("The text ends in the middle of a value; the file seems to be cut off.") },
  { "plan/json-too-much", N_ ("The file holds more values than {limit} of memory take; make it "
                              "smaller.") },
  { "plan/json-depth", N_ ("Arrays and objects are nested deeper than {limit} levels; flatten "
                           "them.") },
  { "plan/json-unexpected", N_ ("A value cannot begin with “{found}”; write a JSON value.") },
  { "plan/json-after-end", N_ ("“{found}” stands after the end of the text; take out what follows "
                               "the last brace.") },
  { "plan/json-comment", N_ ("JSON has no comments; put remarks under a key that begins with x-, "
                             "or into the notes.") },
  { "plan/json-quote", N_ ("JSON knows no single quotes; use double ones.") },
  { "plan/json-control", N_ ("The control character {found} stands in the text; take it out, or "
                             "write it as an escape such as \\n.") },
  { "plan/json-escape", N_ ("A backslash is followed by no escape that JSON knows; write \\\\ for "
                            "the backslash itself.") },
  { "plan/json-zero", N_ ("The text holds \\u0000, which no text here may hold; take it out.") },
  { "plan/json-surrogate", N_ ("The text holds one half of a surrogate pair; write the character "
                               "itself, or both halves.") },
  { "plan/json-number", N_ ("“{text}” is no JSON number; write digits with a point, such as 0.5 or "
                            "-12.") },
  { "plan/json-number-range", N_ ("The number {text} is beyond what can be computed with; correct "
                                  "it.") },
  { "plan/json-word", N_ ("“{text}” is no JSON value; put text into double quotes; numbers that "
                          "are not finite cannot be written.") },
  { "plan/json-key", N_ ("“{found}” stands where a key in double quotes is expected; write one.") },
  { "plan/json-missing-colon", N_ ("“{found}” stands where a colon is expected; put one after the "
                                   "key.") },
  { "plan/json-missing-comma", N_ ("“{found}” stands where a comma or the closing bracket is "
                                   "expected; put it there.") },
  { "plan/json-missing-comma-above",
    N_ ("A comma, or the closing bracket, is missing before this “{found}”, at the end of line "
        "{end-line}; put it there.") },
  { "plan/json-semicolon",
    N_ ("A semicolon stands where a comma is expected; put a comma there.") },
  { "plan/json-decimal-comma",
    N_ ("A number is written with a comma; use a decimal point, as in 0.5.") },
  { "plan/json-trailing-comma", N_ ("A comma stands before the closing bracket; take it out.") },
  { "plan/json-duplicate", N_ ("The key “{key}” stands here a second time; keep one of the two.") },
  { "plan/not-object", N_ ("An object in braces is needed here; write one.") },
  { "plan/not-array", N_ ("An array in square brackets is needed here; write one.") },
  { "plan/not-text", N_ ("A text in double quotes is needed here; write one.") },
  { "plan/not-number",
    N_ ("A number is needed here; write it without quotes and without a unit.") },
  { "plan/not-boolean",
    N_ ("A true or a false is needed here; write one of them without quotes.") },
  { "plan/decimal-comma", N_ ("This number is written with a comma and in quotes; use a decimal "
                              "point and no quotes, as in 0.5.") },
  { "plan/not-numbers", N_ ("This must be {form}: {count} numbers in square brackets, in metres, "
                            "with decimal points.") },
  { "plan/not-angles", N_ ("This must be {form}: {count} numbers in square brackets, in degrees, "
                           "with decimal points.") },
  { "plan/not-point", N_ ("A point is needed here; write the name of a point of the component, or "
                          "[x, y, z] in its frame.") },
  { "plan/not-keep-clear", N_ ("The clearance to be kept is a number, or an object with a number "
                               "for each id; write one of the two.") },
  { "plan/missing-key", N_ ("The key “{key}” is missing; add it.") },
  { "plan/unknown-key", N_ ("The key “{key}” is not known; the nearest that is known here is "
                            "“{nearest}”. Correct it, or begin it with x- to have it kept and "
                            "passed over.") },
  { "plan/unknown-word", N_ ("“{word}” is not known for “{key}”; the nearest is “{nearest}”. Known "
                             "are: {known}.") },
  { "plan/hoist-up", N_ ("“{word}” is no move; write “hoist” with a positive “by”.") },
  { "plan/hoist-down", N_ ("“{word}” is no move; write “hoist” with a negative “by”.") },
  { "plan/too-large", N_ ("{value} is too much; at most {limit} can be right here.") },
  { "plan/too-small", N_ ("{value} is too little; it must be at least {limit}.") },
  { "plan/mat-under-pad",
    N_ ("A mat of {value} is smaller than what stands on it (pad); it must be "
        "at least {limit}.") },
  { "plan/not-above", N_ ("{value} is too little; it must be more than {limit}.") },
  { "plan/empty", N_ ("“{key}” is empty; it needs at least one entry.") },
  { "plan/too-many", N_ ("There are {count} entries, at most {limit} can be checked; divide the "
                         "plan.") },
  { "plan/wrong-format", N_ ("The format is “{format}”; a plan has “trunnion-plan”. Choose another "
                             "file, or correct the word.") },
  { "plan/newer-version", N_ ("The plan is written in version {version} of the format, this "
                              "program knows version {known}; use a newer program.") },
  { "plan/wrong-version", N_ ("The version of the format is no known one; it must be {known}.") },
  { "plan/gear-tilted",
    N_ ("Gear stands upright: only the first number of “turn”, the heading, may "
        "differ from 0; set the others to 0.") },
  { "plan/gear-clear-of-itself",
    N_ ("“{id}” is this gear itself, whose parts keep no clearance from "
        "each other; take it out.") },
  { "plan/range-order",
    N_ ("The first number ({first}) must be less than the second ({second}); correct one of "
        "them.") },
  { "plan/capacity-row", N_ ("A row of the capacity table is [radius, mass]: two numbers in square "
                             "brackets, in metres and kilograms; write them.") },
  { "plan/capacity-order",
    N_ ("The radius {radius} follows {before}; sort the rows of the table by rising radius, each "
        "radius once.") },
  { "plan/one-of-two", N_ ("Either “{first}” or “{second}” says how; write just one of the two.") },
  { "plan/not-gear", N_ ("“{id}” is a structure or component; only gear can be named here.") },
  { "plan/no-hook",
    N_ ("“{id}” has no hook: it holds the point itself, so that “{key}” says nothing; "
        "take it out.") },
  { "plan/same-gear", N_ ("“{id}” is at the main hook already and has one hook only; name another "
                          "gear for the tail.") },
  { "plan/main-point", N_ ("The main hook is plumb over the “hook_point” of the lift; take “point” "
                           "out.") },
  { "plan/hoist-moves",
    N_ ("This must be [first, last]: the numbers of two moves, counted from 0, at most {last}, in "
        "this order.") },
  { "plan/point-beam-name",
    N_ ("“{point}” is a point of the load and also an end of the lifting "
        "beam, so that it is not clear which is meant; rename the point.") },
  { "plan/sling-no-beam", N_ ("This hook has no “beam” whose end could be meant; add the beam, or "
                              "name the hook or a point of the load.") },
  { "plan/sling-beam-to-beam",
    N_ ("A sling goes from the hook to a point or to an end of the beam, or "
        "from an end of the beam to a point; correct one of its ends.") },
  { "plan/not-two-points", N_ ("Two points are needed here, in square brackets; write them.") },
  { "plan/between-one-point", N_ ("Both points are one, so that the direction of the beam is not "
                                  "known; name two different ones.") },
  { "plan/no-direction",
    N_ ("All three are 0, so that there is no direction; write which way it goes.") },
  { "plan/not-pair",
    N_ ("A pair is [a, b]: the ids of two bodies in square brackets; write them.") },
  { "plan/connected-part",
    N_ ("“{id}” has no part “{part}”; correct it, or name “{id}” alone, with all its parts.") },
  { "plan/connected-one", N_ ("“{id}” is connected with itself; name the other body.") },
  { "plan/connected-no-gear",
    N_ ("Neither of the two is gear or rigging; what the load rests on is named under “seats”.") },
  { "plan/connected-whole-gear",
    N_ ("All of “{id}” cannot be fixed to the load; name the part of it that is, as in "
        "“{id}/block”.") },
  { "plan/seat-on-gear", N_ ("“{id}” is gear, and a load rests on structures and components only; "
                             "what holds it is named "
                             "under “rigging”.") },
  { "plan/nothing-lifted", N_ ("The programme has no lift, so there is nothing to check; add "
                               "one.") },
  { "plan/bad-id", N_ ("“{id}” cannot be an id; use small letters a to z, digits and hyphens, and "
                       "begin with a letter or digit.") },
  { "plan/reserved-id", N_ ("“load” stands for the load of a lift and cannot be an id; choose "
                            "another.") },
  { "plan/duplicate-id", N_ ("The id “{id}” is used already at {first}; choose another.") },
  { "plan/unknown-id", N_ ("Nothing has the id “{id}”; the nearest is “{nearest}”. Correct it, or "
                           "add what is meant.") },
  { "plan/no-ids", N_ ("Nothing has the id “{id}”, since there are no structures and components; "
                       "add what is meant.") },
  { "plan/not-component", N_ ("“{id}” is no component; only a component can be named here.") },
  { "plan/unknown-point", N_ ("“{component}” has no point “{point}”; the nearest is “{nearest}”. "
                              "Correct it, or add it to the points of the component.") },
  { "plan/no-points", N_ ("“{component}” has no named points, so “{point}” cannot be found; add it "
                          "to the points of the component.") },
  { "plan/unknown-part", N_ ("“{id}” has no part “{part}”; the nearest is “{nearest}”. Correct "
                             "it.") },
  { "plan/no-parts", N_ ("“{id}” has no parts, so “{part}” cannot be found; name “{id}” alone.") },
  { "plan/solid-or-mesh", N_ ("Nothing says what shape this has; add a “solid” or a “mesh”.") },
  { "plan/solid-and-mesh", N_ ("There is a “solid” as well as a “mesh”; keep one of the two.") },
  { "plan/circle-or-rect", N_ ("An opening is either a “circle” or a “rect”; write one of them.") },
  { "plan/mesh-no-name", N_ ("The name of the mesh file is empty; write it.") },
  { "plan/mesh-part-empty", N_ ("The name of a part is empty; write it as the mesh file has it, or "
                                "leave it out.") },
  { "plan/mesh-part-twice", N_ ("“{part}” is named here already; leave it out.") },
  { "plan/mesh-backslash", N_ ("“{file}” holds a backslash; write / between folders.") },
  { "plan/mesh-absolute", N_ ("“{file}” is an absolute path; put the file into the plan's folder "
                              "and name it from there, or allow files outside it with "
                              "--outside-files.") },
  { "plan/mesh-outside", N_ ("“{file}” leads out of the plan's folder; put the file into it, or "
                             "allow files outside it with --outside-files.") },
  { "plan/mesh-capitals",
    N_ ("There is no file “{file}”, but there is one “{found}”, which differs "
        "in capital letters; write its name as it is.") },
  { "plan/mesh-missing", N_ ("There is no file “{file}”; correct the name, which is taken from the "
                             "plan's folder, or put the file there.") },
  { "plan/mesh-unreadable", N_ ("“{file}” cannot be reached ({reason}); check the rights of it and "
                                "its folders.") },
  { "plan/mesh-not-file", N_ ("“{file}” is no regular file; name a mesh file.") },
  { "plan/lift-or-change", N_ ("An entry of the programme is either a “lift” or a “change”; write "
                               "one of the two.") },
  { "plan/change-kind", N_ ("A change does one of “add”, “remove” and “swap”; write just one of "
                            "them.") },
  { "plan/change-at", N_ ("“at” goes with “add” only; take it out.") },
  { "plan/swap-same", N_ ("“{id}” is swapped with itself; name the component that comes.") },
  { "plan/guide-key",
    N_ ("“{key}” does not go with the guide “{guide}”; take it out, or choose the "
        "other guide.") },
  { "plan/head-is-tail", N_ ("The head and the tail are one point; name two different ones.") },
  { "plan/seat-on-itself", N_ ("“{id}” is the load itself and cannot rest on itself; name what it "
                               "stands on.") },
  { "plan/duplicate-seat", N_ ("There is a seat on “{on}” for this end of the lift already; keep "
                               "one of the two.") },
  { "plan/until-clear", N_ ("The seat counts as left at {value}, but {required} are to be kept "
                            "from it; “until_clear” must be more than that, or be left out.") },
  { "plan/clear-of-itself",
    N_ ("“{id}” is the load itself and cannot be kept clear of itself; take "
        "it out.") },

  /* scene */
  { "scene/slew-radius", N_ ("A slew needs the hook off its centre: the radius is {radius} at the "
                             "start and {end-radius} at the end; correct the centre or the change "
                             "of radius.") },
  { "scene/axis-not-square",
    N_ ("The axis is {off} off square to the line from head to tail, at "
        "most {allowed} is allowed; correct the axis, or the two points.") },
  { "scene/too-far", N_ ("The move takes the load farther than {limit} from the site's origin; "
                         "correct its numbers.") },
  { "scene/no-clearance", N_ ("Nothing says what clearance “{lift}” has to keep from “{obstacle}”; "
                              "give a “keep_clear” for it, for the lift or for the plan.") },
  { "scene/nothing-stands",
    N_ ("Nothing stands on the site during “{lift}”, so there is nothing to "
        "keep clear of; list what stands there under “structures”.") },
  { "scene/live-line",
    N_ ("“{line}” ({voltage} kV) has no clearance of its own, so “{lift}” keeps the general "
        "{required} from it. Approach distances for live lines depend on the voltage and on local "
        "rules: give the line its own “keep_clear”.") },
  { "scene/seat-not-standing",
    N_ ("“{seat}” is not on the site during “{lift}”, so nothing can rest on it; add it before, or "
        "name what the load stands on.") },
  { "scene/gear-not-standing", N_ ("“{gear}” is not on the site when “{lift}” begins; give it a "
                                   "place, or add it before.") },
  { "scene/sling-short", N_ ("“{sling}” is {length} long, but its point is {off} off the plumb "
                             "line of the hook; correct "
                             "its length, or give “hook_above”.") },
  { "scene/hang-short",
    N_ ("“{sling}” and “{other}” are too short for one hook: {together} together, and {distance} "
        "between their points; give “{sling}” more than {length}, or both more.") },
  { "scene/hang-far", N_ ("Hanging free, the load of “{lift}” leans {lean} from the attitude that "
                          "is drawn; check “cog” "
                          "and the hook point.") },
  { "scene/load-not-on-site", N_ ("“{component}” is not on the site when “{lift}” begins; give it "
                                  "a place (“at”), or add it by a change before.") },
  { "scene/already-on-site", N_ ("“{what}” is on the site already when “{change}” brings it; "
                                 "remove it before, or leave this change out.") },
  { "scene/add-without-place", N_ ("Nothing says where “{change}” puts “{what}”; give the change "
                                   "an “at”.") },
  { "scene/not-on-site", N_ ("“{what}” is not on the site when “{change}” takes it away; correct "
                             "the order, or leave this change out.") },
  { "scene/no-folder", N_ ("The mesh of “{body}” cannot be found, since the plan is in no folder; "
                           "save the plan first.") },
  { "scene/empty-mesh", N_ ("The mesh of “{body}” has no triangles; export its surfaces.") },
  { "scene/seat-no-part", N_ ("No part of a structure or component is called “{seat}”; name the "
                              "whole, or a part that it has.") },
  { "scene/open-mesh",
    N_ ("The mesh of “{body}” is not closed: edges with a triangle on one side only ({count}), "
        "holes ({holes}), the largest {largest} across; nothing was filled. Inside of it nothing "
        "can "
        "be told; close it, or take care that nothing gets in.") },
  { "scene/crowded-edges", N_ ("The mesh of “{body}” has edges with more than two triangles "
                               "({count}), so what lies wholly inside it may not be told; make "
                               "each solid a surface of its own.") },
  { "scene/misturned-edges", N_ ("The mesh of “{body}” has edges at which the triangles face "
                                 "opposite ways ({count}), so what lies wholly inside it may not "
                                 "be told; turn them alike.") },
  { "scene/inside-out", N_ ("The mesh of “{body}” has pieces that are turned inside out ({count}); "
                            "check the export.") },
  { "scene/degenerate-triangles", N_ ("The mesh of “{body}” has triangles without area ({count}); "
                                      "they are kept as lines or points.") },
  { "scene/duplicate-triangles", N_ ("The mesh of “{body}” has triangles that are there more than "
                                     "once ({count}); check the export.") },
  { "scene/odd-mass", N_ ("“{component}” weighs {mass}, which is {density} kg for each cubic metre "
                          "of its mesh; check its mass, and the unit of its mesh.") },
  { "scene/odd-mass-in-box",
    N_ ("“{component}” weighs {mass}, which is {density} kg for each cubic metre of the box round "
        "its mesh; check its mass, and the unit of its mesh.") },
  { "scene/mass-no-source",
    N_ ("“{component}” weighs {mass}, and the plan does not say who says so; "
        "name it (“mass_source”).") },
  { "scene/odd-cog",
    N_ ("The centre of gravity of “{component}” is {distance} outside of the box round its mesh, "
        "along {axis}, where no body has it; check the sign and the unit of its cog: it is in "
        "metres and in the frame of the component, or add to the mesh what is so heavy.") },
  { "scene/sling-off-load", N_ ("“{sling}” goes to a point {distance} from the surface of its "
                                "load; correct the point, or add the lug to the mesh.") },
  { "scene/point-off-load",
    N_ ("“{lift}” holds its load by a point {distance} outside of the box round its mesh; correct "
        "the point, or add what it is on to the mesh.") },
  { "scene/odd-pressure",
    N_ ("“{gear}” may press on the ground with {pressure}, where ground bears from 10 kPa (mud) to "
        "20 MPa (concrete); “allowed_pressure” is in pascals: check it.") },
  { "scene/odd-mat",
    N_ ("A mat of “{gear}” bears {moment} (“{key}”), which stresses a solid one of its size with "
        "{stress}, where timber, plastic and steel bear from 100 kPa to 1 GPa; moments are in "
        "newton metres (not kN m): check it.") },
  { "scene/odd-capacity",
    N_ ("The capacity of “{gear}” rises to {mass} at the radius {radius}, from {before} in the row "
        "before; what a crane may lift gets less with the radius: check the row.") },
  { "scene/odd-gear-mass", N_ ("“{gear}” or a part of it weighs {mass}, less than a hundredth of "
                               "the {rated} that it may lift; "
                               "masses are in kilograms: check it.") },
  { "scene/odd-factor", N_ ("The factor {factor} more than doubles what is borne; check it.") },
  { "scene/odd-drag", N_ ("A “drag” of {drag} is less than any body that is lifted has; check it, "
                          "or the wind counts for too little.") },
  { "scene/far-off", N_ ("“{structure}” is {distance} from where any lift begins; check its place "
                         "and that of the components: are all in the same coordinates?") },
  { "scene/odd-size", N_ ("“{body}” is {extent} at its longest; check the unit of its mesh or the "
                          "sizes of its solid.") },

  /* results */
  { "results/too-long",
    N_ ("The file is longer than {limit}; results are never that long, name the "
        "JSON file that check wrote.") },
  { "results/format", N_ ("The format is “{text}”, not “trunnion-results”; name a JSON file that "
                          "check wrote.") },
  { "results/version",
    N_ ("This version of the format is not known; read the file with a later version of the "
        "program, or check the plan again with this one.") },
  { "results/missing-key", N_ ("The key “{key}” is missing here; check the plan again.") },
  { "results/not-object", N_ ("An object in braces is needed here; check the plan again.") },
  { "results/not-array", N_ ("An array in square brackets is needed here; check the plan again.") },
  { "results/not-text", N_ ("A text in double quotes is needed here; check the plan again.") },
  { "results/not-number", N_ ("A number is needed here; check the plan again.") },
  { "results/not-whole", N_ ("A whole number is needed here; check the plan again.") },
  { "results/not-inside",
    N_ ("Here only true or \"unknown\" has a meaning; check the plan again.") },
  { "results/not-sha256",
    N_ ("A SHA-256 has 64 digits from 0 to 9 and a to f; check the plan again.") },
  { "results/control",
    N_ ("A control character stands in a name, which no plan gives; check the plan again.") },
  { "results/out-of-range", N_ ("This is not within {least} to {most}; check the plan again.") },
  { "results/unknown-word",
    N_ ("“{text}” is no word that this version knows here (the nearest is “{nearest}”); read the "
        "file with a later version of the program, or check the plan again with this one.") },
  { "results/too-many", N_ ("More than {limit} are listed here; check fewer lifts at a time.") },
  { "results/same-finding",
    N_ ("A finding before this one is about the same; check the plan again.") },
  { "results/same-mesh",
    N_ ("This mesh file is listed before with the same name; check the plan again.") },

  /* the command line */
  { "cli/no-command",
    N_ ("No command; write one, as “trunnion check PLAN”. The commands are: {commands} (see "
        "trunnion --help).") },
  { "cli/unknown-command",
    N_ ("“{command}” is no command; the commands are: {commands} (see trunnion --help).") },
  { "cli/no-desk",
    N_ ("The desk, trunnion-desk, is not installed beside this program and not on the "
        "path ({reason}); install it.") },
  { "cli/no-plan", N_ ("No plan; name the plan file after the command.") },
  { "cli/no-mesh-file", N_ ("No file; name the mesh file after the command.") },
  { "cli/too-many", N_ ("“{text}” is one argument too many; name one file, and put quotation marks "
                        "round a name with spaces.") },
  { "cli/unknown-option", N_ ("“{option}” is no option here; the nearest is {nearest} (see "
                              "trunnion --help, or the command with --help).") },
  { "cli/no-results", N_ ("Two results are needed; name the JSON files that check wrote: "
                          "trunnion compare OLD.json NEW.json.") },
  { "cli/missing-value", N_ ("The option {option} needs a value after it.") },
  { "cli/unwanted-value",
    N_ ("The option {option} takes no value; leave out “=” and what follows.") },
  { "cli/bad-number", N_ ("“{value}” is no value for {option}; write a number from {least} to "
                          "{greatest}, with a point for decimals.") },
  { "cli/not-whole", N_ ("“{value}” is no value for {option}; write a whole number.") },
  { "cli/bad-time", N_ ("“{value}” is no value for {option}; write seconds, such as 90, or hours, "
                        "minutes and seconds, such as 0:01:30.") },
  { "cli/bad-size",
    N_ ("“{value}” is no value for {option}; write width and height in pixels, such "
        "as 1600x1000, each from 16 to 20000.") },
  { "cli/bad-view",
    N_ ("“{value}” is no value for {option}; write plan, north, east, south, west or 3d.") },
  { "cli/bad-section", N_ ("“{value}” is no value for {option}; write an axis and a place in "
                           "metres, such as z=1.2 or y=-3.") },
  { "cli/no-output", N_ ("Nowhere to put the picture; name its file with -o.") },
  { "cli/time-and-closest",
    N_ ("--time and --closest both choose the moment; leave out one of them.") },
  { "cli/time-beyond",
    N_ ("The lift “{lift}” ends at {end}; choose a moment before that with --time.") },
  { "cli/nothing-closest",
    N_ ("No finding has closest points, so there is nothing for --closest to "
        "show; choose a moment with --time.") },
  { "cli/no-opengl",
    N_ ("There is no OpenGL to draw with ({reason}); install the graphics drivers, "
        "such as Mesa.") },
  { "cli/no-picture", N_ ("The picture could not be made ({reason}); try a smaller size.") },
  { "cli/large-deviation",
    N_ ("With --deviation curved solids may be taken thicker by {deviation}, more than a tenth of "
        "the least clearance that is to be kept ({required}), and clearances come out smaller by "
        "as much; a smaller value takes longer.") },
  { "cli/no-lift", N_ ("The plan has no lift “{lift}”; --lift takes the id of one of its lifts.") },
  { "cli/same-output", N_ ("--json and --csv both write to “{file}”; choose two places.") },
  { "cli/output-is-input", N_ ("The output would take the place of “{file}”, which is read; choose "
                               "another place.") },
  { "cli/not-a-file", N_ ("“{file}” is there and is no ordinary file; choose another place, or - "
                          "for standard output.") },
  { "cli/no-folder", N_ ("Nothing can be written into the folder “{file}”; make it, or choose "
                         "another place.") },
  { "cli/cannot-print", N_ ("Standard output cannot be written ({reason}); what was printed is not "
                            "whole.") },
  { "cli/interrupted", N_ ("Interrupted; nothing was written.") },

  /* app/desk */
  { "desk/not-local", N_ ("“{file}” is not a file of this computer; copy it here, with the mesh "
                          "files that it names, and open the copy.") },
  { "desk/views-no-list", N_ ("The plan keeps something else than a list of views under “x-views”; "
                              "rename that key in the plan's text.") },
  { "desk/plan-too-long", N_ ("With a value on each line the plan would be longer than {limit} and "
                              "could not be read again; take out of it what it does not need.") },
};

const char *
trn_sentence_template (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (sentences); i++)
    if (strcmp (sentences[i].code, code) == 0)
      return sentences[i].template;
  return NULL;
}
