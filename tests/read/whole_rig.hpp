// One rig description that uses every key and every form of value that the format has.
#pragma once

namespace ligament::testing {

inline constexpr char whole_rig[] = R"json({
  "format": "rig-description", "version": 1, "name": "marsh \"heron\" \u9dfa", "extras": {"by": "hand"},
  "sides": [["_l", "_r"], ["left ", "right "]], "roots": ["root"],
  "properties": [
    {"name": "mode", "on": "root", "default": 0.25, "min": -1, "max": 1, "stops": {"ik": 0, "fk": 1}},
    {"name": "doubled", "value": {"expression": "m * 2", "inputs": {"m": {"property": "mode"}}}},
    {"name": "plain"}],
  "objects": [{"name": "skin", "follows": ["root", "neck"]}, {"name": "water"}],
  "bones": [
    {"name": "tail", "parent": "root", "roles": ["deform", "control"], "from_parent": ["scale", "position"]},
    {"name": "root", "roles": ["control"], "from_parent": []},
    {"name": "neck", "roles": ["deform"], "parent": "root", "group": "neck",
     "rest": {"translation": [0.1, -2, 1e-7], "rotation": [0.5, 0.5, 0.5, 0.5], "scale": [2, 2, 2]}, "tip": [0, 0.3, 0],
     "curve": {"segments": 8, "start": "root", "end": "tail"},
     "channels": {"rotation.x": 12.5, "scale.z": {"curve": [[-1, 0], [0.5, 1]], "input": {"property": "mode"}},
       "position.y": {"expression": "min(a, e) + c - d", "inputs": {
         "a": {"bone": "tail", "channel": "rotation.z"}, "e": {"bone": "tail", "channel": "scale.x", "space": "final"},
         "c": {"distance": ["root", "tail"]}, "d": {"angle": ["tail", "root"]}}}},
     "constraints": [
       {"kind": "transform", "from": "tail"},
       {"name": "some", "kind": "transform", "channels": ["rotation", "position.y"], "space": "local", "axes": "zx",
        "additive": true, "enabled": false, "weight": 0.5,
        "from": ["tail", {"bone": "neck", "at": 0.5, "curved": true, "weight": 0.25}, {"object": "skin"}]},
       {"kind": "position", "from": {"bone": "root", "weight": {"expression": "1", "inputs": {"unused": {"property": "mode"}}}}},
       {"kind": "rotation", "from": {"object": "skin"}}, {"kind": "scale", "from": "root"},
       {"kind": "aim", "up": {"bone": "tail", "at": 1}, "from": "root", "axis": "-y"},
       {"kind": "roll", "from": "root", "axis": "x"}, {"kind": "stretch", "from": "root"},
       {"kind": "distance", "from": "root", "range": [0.5, 2]}, {"kind": "space", "from": ["root", "tail"]},
       {"kind": "limit", "channels": ["rotation.x"], "range": [-10, 10]},
       {"kind": "surface", "from": {"object": "water"}, "align": true},
       {"pole": "tail", "kind": "ik", "target": {"bone": "root"}, "chain": 2, "orient": true,
        "weight": {"expression": "m", "inputs": {"m": {"property": "mode"}}}},
       {"kind": "path", "from": ["root", "tail"], "chain": 1},
       {"kind": "custom", "from": ["root", {"object": "skin"}], "reads": ["position"], "writes": ["scale", "rotation.z"],
        "label": "wind & rain"}]}
  ]
})json";

}  // namespace ligament::testing
