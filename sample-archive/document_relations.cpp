#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

namespace sample {

void addRelations(nlohmann::ordered_json& document) {
    append(document, R"json({"relations": [
  {"id": "l-bays", "formula": "{d-hoop-span} = {d-bay-1} + {d-bay-2} + {d-bay-3} + {d-bay-4} + {d-bay-5} + {d-bay-6} + {d-bay-7} + {d-bay-8} + {d-bay-9}",
   "basis": "geometry", "reason": "Nine bays from the first hoop to the tenth."},
  {"id": "l-body", "formula": "{d-body-length} = {d-front-to-hoop} + {d-hoop-span} + {d-rear-to-hoop}", "basis": "geometry",
   "reason": "The end hoops stand inside the body ends."},
  {"id": "l-end-hoops", "formula": "{d-front-to-hoop} = {d-rear-to-hoop}", "u": 0.125, "basis": "symmetry", "source": "s-broadside",
   "reason": "Both ends show the hoop flush with the corner post."},
  {"id": "l-end-hoop-half", "formula": "{d-front-to-hoop} = {d-end-hoop-sided} / 2", "u": 0.0625, "basis": "measured", "source": "s-broadside",
   "reason": "The end hoop's face is the end of the body in the works photograph."},
  {"id": "l-axles", "formula": "{d-body-length} = {d-front-overhang} + {d-wheelbase} + {d-rear-overhang}", "basis": "geometry",
   "reason": "Axles between the body ends."},
  {"id": "l-headstocks", "formula": "{d-over-headstocks} = {d-body-length} + 2*{d-headstock-thickness}", "basis": "geometry",
   "reason": "A headstock at each end, hard against the body."},
  {"id": "l-buffers", "formula": "{d-over-buffers} = {d-over-headstocks} + 2*{d-buffer-projection}", "basis": "geometry",
   "reason": "Buffers at both ends."},
  {"id": "l-side", "formula": "{d-side-height} = {d-sill-depth} + {d-lower-panel} + {d-waist-depth} + {d-waist-to-window} + {d-window-height} + {d-window-to-cantrail} + {d-cantrail-depth}",
   "basis": "geometry", "reason": "The bands of the side, foot to top."},
  {"id": "l-cantrail", "formula": "{d-cantrail-height} = {d-siding-bottom} + {d-side-height}", "basis": "geometry", "reason": "Rail to foot of side, and the side."},
  {"id": "l-height", "formula": "{d-total-height} = {d-cantrail-height} + {d-hoop-10-rise}", "basis": "geometry", "reason": "Hoop 10 is the highest."},
  {"id": "l-front-to-window", "formula": "{d-front-to-door} = {d-front-to-window} + {d-window-1-width} + {d-pillar-1-2} + {d-window-2-width} + {d-pillar-2-3} + {d-window-3-width} + {d-pillar-3-4} + {d-window-4-width} + 3",
   "u": 0.125, "basis": "measured", "source": "s-broadside", "reason": "Windows and pillars from the front to the door, and the door pillar, which is 3 in."},
  {"id": "l-windows-2-3", "formula": "{d-window-2-width} = {d-window-3-width}", "u": 0.0625, "basis": "symmetry", "source": "s-broadside", "reason": "One size of sash in the ledger for all but the first."},
  {"id": "l-windows-3-4", "formula": "{d-window-3-width} = {d-window-4-width}", "u": 0.0625, "basis": "symmetry", "source": "s-broadside", "reason": "One size of sash in the ledger for all but the first."},
  {"id": "l-windows-4-5", "formula": "{d-window-4-width} = {d-window-5-width}", "u": 0.0625, "basis": "symmetry", "source": "s-broadside", "reason": "One size of sash in the ledger for all but the first."},
  {"id": "l-windows-5-6", "formula": "{d-window-5-width} = {d-window-6-width}", "u": 0.0625, "basis": "symmetry", "source": "s-broadside", "reason": "One size of sash in the ledger for all but the first."},
  {"id": "l-sash-width", "formula": "{d-sash-width} = {d-window-2-width} - {d-sash-clearance}", "u": 0.0625, "basis": "measured", "source": "s-sash", "reason": "The sash slides in its opening with the play its rub marks show."},
  {"id": "l-sash-height", "formula": "{d-sash-height} = {d-window-height} - {d-sash-clearance}", "u": 0.0625, "basis": "measured", "source": "s-sash", "reason": "As in width."},
  {"id": "l-headroom", "formula": "{d-headroom-middle} = {d-cantrail-height} + {d-hoop-9-rise} - {d-hoop-9-crown} - {d-floor-height}", "basis": "geometry", "reason": "Floor to underside of hoop 9."},
  {"id": "l-headroom-side", "formula": "{d-headroom-side} = {d-cantrail-height} - {d-cantrail-depth} - {d-floor-height}", "basis": "geometry", "reason": "Floor to underside of cantrail."},
  {"id": "l-turn", "formula": "{d-wheel-circumference} = pi * {d-wheel-diameter}", "basis": "geometry", "reason": "Distance run in one turn."},
  {"id": "l-journal", "formula": "{d-axlebox-bore} = {d-axle-diameter} + 0.01", "u": 0.005, "basis": "trade-rule", "reason": "Running clearance of three thou to the inch of journal, to the nearest hundredth."},
  {"id": "l-tank", "formula": "{d-tank-volume} = pi / 4 * {d-tank-diameter}^2 * {d-tank-length}", "u": 20, "basis": "geometry", "reason": "A plain drum with flat ends."},
  {"id": "l-drive", "formula": "{d-sprocket-ratio} = {d-driven-sprocket} / {d-driving-sprocket}", "basis": "geometry", "reason": "Chain drive."},
  {"id": "l-engine-fits", "formula": "{d-engine-bed-width} <= {d-channel-spacing} - 2*{d-channel-flange}", "basis": "geometry", "reason": "The bed lies between the channels."},
  {"id": "l-tank-fits", "formula": "{d-tank-diameter} <= {d-seat-height} - 3", "basis": "limit", "reason": "The tank lies under the seat, above its chocks and below the locker lid."},
  {"id": "l-sides-of-wheel", "formula": "{d-pillar-2-3} = {d-pillar-3-4}", "u": 0.0625, "basis": "symmetry", "source": "s-broadside", "reason": "Equal pillars between equal lights."},
  {"id": "l-mass", "formula": "{d-mass-tare} = {d-mass-body} + {d-mass-underframe} + {d-mass-wheelsets} + {d-mass-engine} + {d-mass-roof} + {d-mass-seats} + {d-mass-brake}",
   "basis": "geometry", "use": "check", "reason": "Everything that was on the weighbridge; a check on the parts, never spread over them."},
  {"id": "l-overhang-slip", "formula": "{d-rear-overhang} = {d-body-length} - {d-front-overhang} - {d-wheelbase} - {d-headstock-thickness}", "u": 0.25, "basis": "assumed", "use": "check",
   "reason": "A note on the back of the tracing reckons the rear overhang from the headstock. Kept until the writer is known."}
]})json");
}

}  // namespace sample
