/* A small plan without a fault, one object a line, from which tests make faulty ones. */
#pragma once

#define PLAN_BASE                                                                                  \
  "{\"format\": \"trunnion-plan\", \"version\": 1, \"title\": \"Base\", \"keep_clear\": 0.3,\n"    \
  "\"structures\": [\n"                                                                            \
  "{\"id\": \"box\", \"solid\": {\"kind\": \"box\", \"size\": [1, 2, 3]},\n"                       \
  " \"at\": {\"position\": [9, 9, 0], \"turn\": [10, 20, 30]}, \"survey_tolerance\": 0.01},\n"     \
  "{\"id\": \"shaft\", \"solid\": {\"kind\": \"round-shaft\", \"inner_diameter\": 8,\n"            \
  " \"depth\": 12, \"wall\": 0.5, \"floor\": 1}, \"at\": {\"position\": [0, 0, 0]},\n"             \
  " \"keep_clear\": 0.2},\n"                                                                       \
  "{\"id\": \"tube\", \"solid\": {\"kind\": \"tube\", \"outer_diameter\": 1.5,\n"                  \
  " \"inner_diameter\": 1.2, \"height\": 7}, \"at\": {\"position\": [20, 0, 0]}},\n"               \
  "{\"id\": \"pit\", \"solid\": {\"kind\": \"rect-shaft\", \"size\": [5, 4], \"depth\": 3.5,\n"    \
  " \"wall\": 0.45, \"floor\": 0}, \"at\": {\"position\": [30, 0, 0]}},\n"                         \
  "{\"id\": \"beam\", \"solid\": {\"kind\": \"beam\", \"from\": [0, 0, 1], \"to\": [4, 0, 6],\n"   \
  " \"width\": 0.35, \"depth\": 0.4}, \"at\": {\"position\": [40, 0, 0]}},\n"                      \
  "{\"id\": \"ground\", \"solid\": {\"kind\": \"ground\", \"size\": [90, 80],\n"                   \
  " \"openings\": [{\"circle\": [1, 1, 10]}, {\"rect\": [20, 20, 6, 5]}]},\n"                      \
  " \"at\": {\"position\": [0, 0, -1]}},\n"                                                        \
  "{\"id\": \"line\", \"solid\": {\"kind\": \"overhead-line\", \"conductors\": [\n"                \
  " {\"from\": [-40, 25, 14], \"to\": [40, 25, 14], \"sag\": 1.25}], \"voltage_kv\": 20},\n"       \
  " \"at\": {\"position\": [0, 0, 2]}},\n"                                                         \
  "{\"id\": \"stand\", \"solid\": {\"kind\": \"group\", \"parts\": [\n"                            \
  " {\"id\": \"left\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]},\n"                     \
  "  \"at\": {\"position\": [-2, 0, 0]}},\n"                                                       \
  " {\"id\": \"right\", \"solid\": {\"kind\": \"cylinder\", \"diameter\": 1, \"height\": 1},\n"    \
  "  \"at\": {\"position\": [2, 0, 0]}}]}, \"at\": {\"position\": [50, 0, 0]}}\n"                  \
  "],\n"                                                                                           \
  "\"components\": [\n"                                                                            \
  "{\"id\": \"pump\", \"name\": \"Pump\", \"solid\": {\"kind\": \"cylinder\",\n"                   \
  " \"diameter\": 2, \"height\": 6}, \"mass\": 5000, \"mass_source\": \"drawing\",\n"              \
  " \"mass_factor\": 1.1, \"cog\": [0, 0, 3], \"cog_box\": [0.1, 0.1, 0.2],\n"                     \
  " \"points\": {\"lug\": [0, 0, 6.5], \"tail\": [0.5, 0, 0.5]}, \"at\": {\"position\": [50, 0, "  \
  "1]}},\n"                                                                                        \
  "{\"id\": \"lid\", \"mesh\": {\"file\": \"lid.stl\", \"unit\": \"mm\", \"up\": \"z\"}, \"at\": " \
  "null},\n"                                                                                       \
  "{\"id\": \"cap\", \"mesh\": {\"file\": \"cap.obj\"}, \"at\": {\"position\": [60, 0, 0]}}\n"     \
  "],\n"                                                                                           \
  "\"gear\": [\n"                                                                                  \
  "{\"id\": \"tower\", \"kind\": \"gantry\", \"at\": {\"position\": [80, 0, 0], \"turn\": [33, "   \
  "0, 0]},\n"                                                                                      \
  " \"keep_clear\": 0.15, \"keep_clear_from\": {\"load\": 0.07, \"tailer\": 1.25},\n"              \
  " \"legs\": [{\"at\": [-4, 0.5], \"size\": [0.6, 0.55], \"height\": 22, \"pad\": [1.9, 1.6],\n"  \
  "  \"mat\": {\"size\": [2.9, 2.6, 0.25], \"mass\": 1900}},\n"                                    \
  "  {\"at\": [4, 0.5], \"size\": [0.6, 0.65], \"height\": 23}],\n"                                \
  " \"runways\": [{\"from\": [-4, -9, 22.4], \"to\": [-4, 9, 22.4], \"width\": 0.5, \"depth\": "   \
  "0.8}],\n"                                                                                       \
  " \"header\": {\"length\": 9, \"width\": 0.46, \"depth\": 0.9, \"underside\": 22.8, "            \
  "\"spacing\": 1.3},\n"                                                                           \
  " \"trolley\": {\"size\": [1.8, 1.7, 0.7], \"underside\": 23.7},\n"                              \
  " \"window\": {\"x\": [-3, 3.5], \"y\": [-8, 8.5], \"hook\": [1.5, 21]}, \"rope_diameter\": "    \
  "0.25,\n"                                                                                        \
  " \"capacity\": {\"mass\": 90000, \"source\": \"sheet 7\"},\n"                                   \
  " \"mass\": 45500, \"cog\": [0.25, -0.15],\n"                                                    \
  " \"ground\": {\"allowed_pressure\": 250000, \"source\": \"survey 3\"}},\n"                      \
  "{\"id\": \"tailer\", \"kind\": \"crane\", \"at\": {\"position\": [25, -9, 0]},\n"               \
  " \"carrier\": {\"size\": [9, 3, 1.4], \"centre\": [-1.5, 0.25]},\n"                             \
  " \"boom\": {\"foot\": [-0.9, 1.8], \"length\": 24, \"section\": [1.15, 1.35], \"angle\": [15, " \
  "82.5], \"mass\": 8250},\n"                                                                      \
  " \"jib\": {\"length\": 8.5, \"offset\": 20.5, \"section\": [0.75, 0.85], \"mass\": 1150},\n"    \
  " \"counterweight\": {\"tail_radius\": 4.4, \"bottom\": 1.22, \"top\": 2.9, \"width\": 3.6},\n"  \
  " \"out_of_plumb\": {\"most_deg\": 1.55, \"source\": \"manual 9\"},\n"                           \
  " \"hook_to_tip\": 2.2, \"capacity\": {\"configuration\": \"33 m\", \"source\": \"invented\",\n" \
  "  \"table\": [[6, 31000], [9, 22500.5], [14, 11000]]}, \"wind_limit\": 9.8,\n"                  \
  " \"supports\": {\"kind\": \"outriggers\", \"at\": [[3.1, 3.2], [-3.1, -3.2]], \"pad\": [1.2, "  \
  "1.05],\n"                                                                                       \
  "  \"mat\": {\"size\": [2.3, 2.2, 0.15]}},\n"                                                    \
  " \"slewing\": {\"mass\": 24500, \"out\": -2.55}, \"barricade\": 5.5, \"park\": [8, 0, 12]},\n"  \
  "{\"id\": \"bogie\", \"kind\": \"tail-trolley\", \"at\": null, \"size\": [2.2, 1.45, 0.95], "    \
  "\"track\": [-6, 10]},\n"                                                                        \
  "{\"id\": \"frame\", \"kind\": \"turning-frame\", \"at\": {\"position\": [85, 0, 0]}, "          \
  "\"pivot\": 1.33,\n"                                                                             \
  " \"size\": [0.33, 1.2, 1.6], \"spacing\": 2.6}\n"                                               \
  "],\n"                                                                                           \
  "\"approach\": {\"rule\": \"own\", \"distance\": 4.5, \"source\": \"works rule 12\"},\n"         \
  "\"loads\": {\"dynamic\": {\"factor\": 1.15, \"source\": \"works rule 4\"},\n"                   \
  " \"critical\": {\"share\": 0.8, \"source\": \"works rule 5\"},\n"                               \
  " \"out_of_level\": {\"height\": 0.45, \"source\": \"works rule 6\"},\n"                         \
  " \"ramp\": {\"seconds\": 18.5, \"rest\": 95, \"source\": \"works rule 7\"}},\n"                 \
  "\"wind\": {\"speed\": 9.5, \"drag\": 1.35, \"air_density\": 1.21, \"source\": \"works rule "    \
  "9\"},\n"                                                                                        \
  "\"programme\": [\n"                                                                             \
  "{\"lift\": \"pump-in\", \"component\": \"pump\", \"hook_point\": \"lug\",\n"                    \
  " \"moves\": [\n"                                                                                \
  "  {\"do\": \"hoist\", \"by\": 2, \"seconds\": 60},\n"                                           \
  "  {\"do\": \"travel\", \"by\": [3, 4], \"seconds\": 61},\n"                                     \
  "  {\"do\": \"move\", \"by\": [1, 1, 1], \"turn\": 15, \"about\": \"tail\", \"seconds\": 62},\n" \
  "  {\"do\": \"turn\", \"by\": 45, \"seconds\": 63},\n"                                           \
  "  {\"do\": \"slew\", \"by\": 61, \"centre\": [5, -5], \"load_turns\": true, \"seconds\": "      \
  "64},\n"                                                                                         \
  "  {\"do\": \"tilt\", \"by\": 5, \"axis\": 12, \"carry\": [0, 0, 1], \"seconds\": 65},\n"        \
  "  {\"do\": \"tilt\", \"by\": 6, \"axis\": 90, \"head\": \"lug\", \"tail\": \"tail\",\n"         \
  "   \"guide\": \"head-plumb\", \"seconds\": 66},\n"                                              \
  "  {\"do\": \"wait\", \"hold_point\": \"plumb?\", \"seconds\": 0}],\n"                           \
  " \"seats\": [{\"on\": \"stand/left\", \"at\": \"start\", \"until_clear\": 0.5, \"fit\": "       \
  "0.01},\n"                                                                                       \
  "  {\"on\": \"shaft/floor\", \"at\": \"end\"}],\n"                                               \
  " \"start\": {\"position\": [50, 0, 1.5]}, \"keep_clear\": {\"box\": 0.1},\n"                    \
  " \"tolerance\": {\"position\": 0.05, \"tilt_deg\": 0.25, \"heading_deg\": 1}, \"hangs\": "      \
  "\"free\",\n"                                                                                    \
  " \"rigging\": {\"main\": {\"gear\": \"tower\", \"hook_above\": 4.25, \"moves\": [0, 7],\n"      \
  "  \"block\": {\"diameter\": 0.8, \"height\": 1.55, \"mass\": 950},\n"                           \
  "  \"beam\": {\"id\": \"spreader\", \"length\": 3.3, \"width\": 0.31, \"depth\": 0.41, "         \
  "\"below_hook\": 2.1,\n"                                                                         \
  "   \"between\": [\"lug\", [1, 0, 6.5]], \"mass\": 700, \"wll\": 80000},\n"                      \
  "  \"slings\": [\n"                                                                              \
  "   {\"id\": \"up-a\", \"to\": \"beam-a\", \"diameter\": 0.051, \"length\": 2.65, \"mass\": "    \
  "40, \"wll\": 45000,\n"                                                                          \
  "    \"shackle\": {\"id\": \"sh-1\", \"mass\": 12, \"wll\": 55000, \"pin\": [0, 3, 4]}},\n"      \
  "   {\"id\": \"up-b\", \"from\": \"hook\", \"to\": \"beam-b\", \"diameter\": 0.052},\n"          \
  "   {\"id\": \"down-a\", \"from\": \"beam-a\", \"to\": \"lug\", \"diameter\": 0.053}]},\n"       \
  "  \"tail\": {\"gear\": \"tailer\", \"point\": \"tail\", \"moves\": [1, 6],\n"                   \
  "   \"slings\": [{\"id\": \"tail-leg\", \"to\": \"tail\", \"diameter\": 0.04, \"length\": "      \
  "3.05}]},\n"                                                                                     \
  "  \"connected\": [[\"tower/header-2\", \"up-b\"], [\"load\", \"bogie\"]]}},\n"                  \
  "{\"change\": \"lid-on\", \"add\": \"lid\", \"at\": {\"position\": [70, 0, 0]}},\n"              \
  "{\"change\": \"cap-new\", \"swap\": {\"component\": \"cap\", \"with\": \"lid\"}},\n"            \
  "{\"change\": \"box-off\", \"remove\": \"box\"}\n"                                               \
  "]}\n"
