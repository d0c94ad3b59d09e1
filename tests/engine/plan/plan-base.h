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
  " \"tolerance\": {\"position\": 0.05, \"tilt_deg\": 0.25, \"heading_deg\": 1}},\n"               \
  "{\"change\": \"lid-on\", \"add\": \"lid\", \"at\": {\"position\": [70, 0, 0]}},\n"              \
  "{\"change\": \"cap-new\", \"swap\": {\"component\": \"cap\", \"with\": \"lid\"}},\n"            \
  "{\"change\": \"box-off\", \"remove\": \"box\"}\n"                                               \
  "]}\n"
