#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

namespace sample {

void addGauged(nlohmann::ordered_json& document) {
    append(document, R"json({"readings": [
  {"id": "r-box-height", "of": "d-axlebox-height", "basis": "gauged", "source": "s-parts", "value": "7 1/4 in", "instrument": "caliper, 12 in", "u": 0.008,
   "feature": "original", "article": "axlebox", "corrections": [{"label": "corrosion", "add": 0.014, "u": 0.006, "reason": "Rusted outside on both faces; cleaned patch beside it.", "basis": "measured"}]},
  {"id": "r-box-width", "of": "d-axlebox-width", "basis": "gauged", "source": "s-parts", "value": "6 1/8 in", "instrument": "caliper, 12 in", "u": 0.008,
   "feature": "original", "article": "axlebox", "corrections": [{"label": "corrosion", "add": 0.014, "u": 0.006, "reason": "As for the height.", "basis": "measured"}]},
  {"id": "r-box-lugs", "of": "d-axlebox-lugs", "basis": "gauged", "source": "s-parts", "value": "8.49 in", "instrument": "caliper, 12 in", "u": 0.006,
   "feature": "original", "article": "axlebox", "dof": 4},
  {"id": "r-box-bore", "of": "d-axlebox-bore", "basis": "limit", "source": "s-parts", "low": "2.98 in", "high": "3.25 in", "feature": "altered", "article": "axlebox",
   "reason": "Bushed later: the bush is 3 1/4 in outside, so the bore was no larger, and the journal it ran on no smaller than the bush's bore."},
  {"id": "r-box-journal", "of": "d-axle-diameter", "basis": "gauged", "source": "s-parts", "value": "3.00 in", "instrument": "inside micrometer", "u": 0.01,
   "feature": "uncertain", "article": "axlebox", "reason": "Bore of the bush less the running clearance; the bush may be a second one."},
  {"id": "r-box-pattern", "of": "d-axlebox-pattern", "basis": "gauged", "source": "s-pattern", "value": "7.33 in", "u": 0.01, "feature": "original", "article": "axlebox-pattern",
   "instrument": "caliper, 12 in"},
  {"id": "r-lugs-pattern", "of": "d-axlebox-lugs", "basis": "gauged", "source": "s-pattern", "value": "8.68 in", "u": 0.02, "feature": "original", "article": "axlebox-pattern",
   "instrument": "steel rule",
   "corrections": [
     {"label": "casting contraction", "factor": 0.98969, "u": 0.0010, "reason": "Grey iron, 1/8 in to the foot.", "basis": "trade-rule"},
     {"label": "casting contraction", "factor": 0.98969, "u": 0.0010, "reason": "The metal pattern was itself cast from a wood master.", "basis": "trade-rule"}]},
  {"id": "r-sash-width", "of": "d-sash-width", "basis": "gauged", "source": "s-sash", "value": "15 13/16 in", "instrument": "steel rule", "feature": "original", "article": "sash",
   "corrections": [{"label": "wood movement", "add": 0.05, "u": 0.02, "reason": "Ash kept dry in a heated store; stiles narrower now than when made.", "basis": "trade-rule", "table_row": "wm-ash-white-t"}]},
  {"id": "r-sash-height", "of": "d-sash-height", "basis": "gauged", "source": "s-sash", "low": "22 1/8 in", "feature": "altered", "article": "sash", "instrument": "steel rule",
   "reason": "Bottom edge worn and planed: the sash was at least this high."},
  {"id": "r-sash-thickness", "of": "d-sash-thickness", "basis": "gauged", "source": "s-sash", "value": "1 3/8 in", "instrument": "caliper", "u": 0.012, "feature": "original", "article": "sash"},
  {"id": "r-sash-stile", "of": "d-sash-stile", "basis": "gauged", "source": "s-sash", "value": "1 23/32 in", "instrument": "caliper", "u": 0.012, "feature": "original", "article": "sash",
   "corrections": [{"label": "wood movement", "add": 0.024, "u": 0.01, "reason": "As for the width.", "basis": "trade-rule", "table_row": "wm-ash-white-t"}]},
  {"id": "r-sash-clearance", "of": "d-sash-clearance", "basis": "gauged", "source": "s-sash", "value": "1/8 in", "u": 0.03, "feature": "uncertain", "article": "sash",
   "reason": "Rub marks on both stiles show how far it moved."},
  {"id": "r-bracket-length-1", "of": "d-bracket-length", "basis": "gauged", "source": "s-bracket", "value": "9.04 in", "u": 0.012, "instrument": "steel rule, worn end", "feature": "original", "article": "bracket",
   "by": "p-tsang", "on": "2024-11-02"},
  {"id": "r-bracket-length-2", "of": "d-bracket-length", "basis": "gauged", "source": "s-bracket-twin", "value": "9.12 in", "u": 0.012, "instrument": "steel rule, worn end", "feature": "original", "article": "bracket-twin",
   "reason": "Taken in three lays of the same rule, which was too short for it in its case.", "by": "p-tsang", "on": "2024-11-09"},
  {"id": "r-bracket-height", "of": "d-bracket-height", "basis": "gauged", "source": "s-bracket", "value": "6 1/2 in", "instrument": "steel rule", "feature": "original", "article": "bracket"},
  {"id": "r-bracket-holes", "of": "d-bracket-holes", "basis": "gauged", "source": "s-bracket", "value": "4.25 in", "u": 0.01, "instrument": "caliper", "feature": "original", "article": "bracket"},
  {"id": "r-hanger-stand-off", "of": "d-plate-stand-off", "basis": "gauged", "source": "s-bracket", "value": "4 in", "u": 0.2, "instrument": "steel rule", "feature": "uncertain", "article": "hanger",
   "reason": "The hanger is bent; straightened on the bench it holds the plate's back 4 in off its foot, give or take."}
],
"shared_errors": [
  {"id": "e-worn-rule", "label": "worn end of the 3 in rule", "kind": "absolute", "u": 0.06, "basis": "measured",
   "on": [{"record": "r-bracket-length-1", "coefficient": 1}, {"record": "r-bracket-length-2", "coefficient": 3}]},
  {"id": "e-linen-across", "label": "linen shrunk across its width", "kind": "relative", "u": 0.002, "basis": "measured",
   "on": [{"record": "r-ga-engine-bed-width", "coefficient": 1}, {"record": "r-ga-lamp-height", "coefficient": 1}]}
]})json");
}

}  // namespace sample
