#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

namespace sample {

namespace {

void addRulings(nlohmann::ordered_json& document) {
    append(document, R"json({"rulings": [
  {"id": "k-body-length", "on": "d-body-length", "value": "14'-3 1/2\"", "by": "p-hale", "at": "2025-05-10T10:00:00Z", "tolerance": 0.125,
   "reason": "Figured by the maker; the photograph, the bays and the axles agree with it."},
  {"id": "k-wheelbase", "on": "d-wheelbase", "value": "7'-0\"", "by": "p-hale", "at": "2025-05-10T10:05:00Z", "tolerance": 0.0625,
   "reason": "Figured on drawings 47 and 61 alike, and the alteration left the wheels where they were."},
  {"id": "k-body-width", "on": "d-body-width", "value": "5'-2\"", "by": "p-hale", "at": "2025-05-10T10:10:00Z", "tolerance": 0.125,
   "reason": "Figured on drawing 47; the hoops of drawing 49 with two thicknesses of board give the same."},
  {"id": "k-wheel", "on": "d-wheel-diameter", "value": "2'-0\"", "by": "p-hale", "at": "2025-05-10T10:20:00Z", "tolerance": 0.0625,
   "reason": "The figure of drawing 47 over the ledger's about; the picture agrees within its spread.",
   "alternatives": [{"value": "1'-11 3/4\"", "reason": "Half worn tyres, if the pair came second-hand."}]},
  {"id": "k-door-width-1", "on": "d-door-width", "value": "1'-9\"", "by": "p-hale", "at": "2025-05-11T09:00:00Z",
   "reason": "The ledger's order for the door itself.", "alternatives": [{"value": "1'-8\"", "reason": "Drawing 47."}]},
  {"id": "k-door-width", "on": "d-door-width", "value": "1'-8\"", "by": "p-hale", "at": "2025-06-02T09:00:00Z", "supersedes": "k-door-width-1", "tolerance": 0.125,
   "reason": "Drawing, photograph and blueprint show the leaf at 20 in; the ledger's 21 will be the size ordered, with the rebate.",
   "alternatives": [{"value": "1'-9\"", "reason": "The ledger, if the rebate was planted on."}]},
  {"id": "k-window", "on": "d-window-3-width", "value": "1'-4\"", "by": "p-hale", "at": "2025-06-02T09:10:00Z", "tolerance": 0.0625,
   "reason": "Figured; the surviving sash with its play fills it."},
  {"id": "k-sash-width", "on": "d-sash-width", "value": "15 7/8 in", "by": "p-tsang", "at": "2025-06-02T09:20:00Z", "tolerance": 0.03125,
   "reason": "The sash in hand, brought back for the wood's movement, and the ledger say one thing."},
  {"id": "k-hoop-5-rise", "on": "d-hoop-5-rise", "value": "15 1/2 in", "by": "p-moran", "at": "2025-06-08T14:00:00Z", "tolerance": 0.25,
   "reason": "A fair batten through hoops 2 and 9 at the hoop's station; nothing in the picture speaks against it.",
   "evidence": {"value": 15.375, "u": 0.4, "grade": "B", "digest": "7d1c5b0e4f3a29681726354453627180f1e2d3c4b5a69788796a5b4c3d2e1f00"}},
  {"id": "k-seat-depth", "on": "d-seat-depth", "value": "19 in", "by": "p-hale", "at": "2025-06-08T14:10:00Z",
   "reason": "Room for a grown man's thigh; 16 in is a perch."},
  {"id": "k-brake-lever", "on": "d-brake-lever", "value": "18 in", "by": "p-hale", "at": "2025-06-08T14:20:00Z", "tolerance": 0.5,
   "reason": "Our choice: it clears the axle at full stroke and gives the pull the blocks want. To be proved on the car before traffic.",
   "alternatives": [{"value": "16 1/2 in", "reason": "Shorter clears more and pulls less."}, {"value": "19 1/2 in", "reason": "Longer pulls more and meets the step iron."}]},
  {"id": "k-hoop-timber", "on": "q-hoop-timber", "value": "oak", "by": "p-hale", "at": "2025-06-08T14:30:00Z",
   "reason": "Ledger and drawing 49 agree."},
  {"id": "k-body-colour", "on": "q-body-colour", "value": "blue-green", "by": "p-hale", "at": "2025-06-08T14:40:00Z",
   "reason": "Two witnesses of the week she was new against one of forty-seven years after, who knew her repainted.",
   "alternatives": [{"value": "dark green", "reason": "Birtle, 1958."}]}
]})json");
}

void addDepartures(nlohmann::ordered_json& document) {
    append(document, R"json({"departures": [
  {"id": "x-brake", "on": "q-brake-kind", "from": "hand wheel and screw", "to": "hand screw on all four wheels, with a hydraulic foot brake", "why": "law", "by": "p-hale", "at": "2025-07-01T09:00:00Z",
   "reason": "A passenger vehicle may not run with a hand brake on one axle only. The owner's engineer and the railway's safety rules decide; nothing here takes their place.",
   "rule": "Rules for heritage passenger vehicles, brake on every wheel", "authority": "The operating railway's chief engineer", "effect": "Pipes and cylinders hidden within the channels.", "reversible": true,
   "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:00:00Z"}, {"by": "p-tsang", "as": "engineering", "at": "2025-07-06T09:00:00Z"}], "affects": ["d-brake-lever", "d-brake-block", "d-mass-brake"]},
  {"id": "x-glass", "on": "q-sash-timber", "from": "ash, with sheet glass", "to": "ash, with laminated glass", "why": "safety", "by": "p-hale", "at": "2025-07-01T09:10:00Z",
   "reason": "Sheet glass breaks into blades.", "effect": "Glass 1/16 in thicker, rebate as found.", "reversible": true,
   "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:05:00Z"}]},
  {"id": "x-door", "on": "d-door-width", "from": "1'-8\"", "to": "2'-0\"", "why": "access", "by": "p-hale", "at": "2025-07-01T09:20:00Z",
   "reason": "Twenty inches is too narrow to carry a person out on a stretcher.", "effect": "Bay 5 takes the wider leaf by thinner door pillars; the panel lines keep.", "reversible": false,
   "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:10:00Z"}, {"by": "p-tsang", "as": "engineering", "at": "2025-07-06T09:10:00Z"}], "affects": ["d-bay-5"]},
  {"id": "x-tank", "on": "q-tank-material", "from": "copper", "to": "stainless steel cell with a vented cap", "why": "safety", "by": "p-hale", "at": "2025-07-01T09:30:00Z",
   "reason": "A soldered tank under a seat is a fire waiting. Fuel work is for a qualified fitter and the local fire rules.", "effect": "Hidden in the locker.", "reversible": true,
   "approvals": [{"by": "p-tsang", "as": "engineering", "at": "2025-07-06T09:15:00Z"}], "affects": ["d-tank-diameter", "d-tank-length", "d-tank-volume"]},
  {"id": "x-lamps", "on": "q-lamps", "from": "oil lamps", "to": "oil lamp cases with electric lamps and wiring", "why": "law", "by": "p-moran", "at": "2025-07-02T09:00:00Z",
   "reason": "White and red lights must burn without tending.", "effect": "Wires in the roof hollow.", "reversible": true,
   "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:15:00Z"}]},
  {"id": "x-paint", "on": "q-roof-cover", "from": "canvas, white lead", "to": "canvas with titanium white oil paint", "why": "law", "by": "p-tsang", "at": "2025-07-02T09:10:00Z",
   "reason": "White lead may not be used by us.", "effect": "A colder white.", "reversible": true, "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:20:00Z"}]},
  {"id": "x-pine", "on": "q-sheathing-timber", "from": "red pine", "to": "larch", "why": "material", "by": "p-tsang", "at": "2025-07-02T09:20:00Z",
   "reason": "Clear red pine in fourteen-foot lengths can't be had; larch takes paint alike.", "effect": "Eight per cent heavier boards.", "reversible": true,
   "approvals": [{"by": "p-okoro", "as": "history", "at": "2025-07-05T09:25:00Z"}], "affects": ["d-mass-body"]},
  {"id": "x-roof-height", "on": "d-total-height", "from": "8'-5 3/4\"", "to": "8'-5 1/4\"", "why": "other", "by": "p-hale", "at": "2025-08-20T09:00:00Z",
   "reason": "The carriage shed's door clears 8 ft 5 1/2 in. Not agreed yet."}
]})json");
}

void addShop(nlohmann::ordered_json& document) {
    append(document, R"json({
"slips": [
  {"id": "v-wheelbase", "on": "d-wheelbase", "value": "7'-0\"", "tolerance": 0.0625, "by": "p-tsang", "at": "2025-06-15T08:00:00Z", "allowed_by": "p-hale", "note": "Axle guards may be drilled.", "grade": "F"},
  {"id": "v-window-height", "on": "d-window-height", "value": "22 in", "tolerance": 0.0625, "by": "p-tsang", "at": "2025-03-20T08:00:00Z", "allowed_by": "p-hale", "note": "Taken off the tracing in haste; sash stuff already cut.", "grade": "T"},
  {"id": "v-hoop-4-crown", "on": "d-hoop-4-crown", "value": "2 3/8 in", "tolerance": 0.125, "by": "p-tsang", "at": "2025-04-28T08:00:00Z", "allowed_by": "p-hale", "note": "Laminations had to be ordered; hoop 4 still open.", "grade": "B"},
  {"id": "v-sash-width", "on": "d-sash-width", "value": "15 7/8 in", "tolerance": 0.03125, "by": "p-tsang", "at": "2025-06-16T08:00:00Z", "allowed_by": "p-hale", "grade": "H"},
  {"id": "v-body-width", "on": "d-body-width", "value": "5'-2\"", "tolerance": 0.125, "by": "p-tsang", "at": "2025-06-17T08:00:00Z", "allowed_by": "p-hale", "grade": "F"}
],
"as_built": [
  {"id": "a-wheelbase", "on": "d-wheelbase", "value": "7'-0 1/32\"", "u": 0.02, "by": "p-tsang", "at": "2025-08-30T16:00:00Z", "note": "Between centre pops on the axle guards."},
  {"id": "a-sash-width", "on": "d-sash-width", "value": "15 27/32 in", "u": 0.015, "by": "p-tsang", "at": "2025-09-04T16:00:00Z", "note": "Mean of six."},
  {"id": "a-body-width", "on": "d-body-width", "value": "5'-2 1/16\"", "u": 0.03, "by": "p-tsang", "at": "2025-09-20T16:00:00Z"}
],
"queries": [
  {"id": "y-roof-line", "on": "d-hoop-5-rise", "by": "p-okoro", "at": "2025-06-20T12:00:00Z", "text": "Why not take the rises off the roof line of drawing 47?",
   "answers": [{"by": "p-moran", "at": "2025-06-21T09:00:00Z", "text": "It is ruled straight from end to end and the dotted hoops end in the air; at hoops 2 and 9 it leaves drawing 49 by a quarter."}], "state": "settled", "closed": "2025-06-25T12:00:00Z"},
  {"id": "y-plate", "on": "g-works", "by": "p-okoro", "at": "2025-06-20T12:10:00Z", "text": "Is the plate in the picture the plate of the catalogue, or a painted board of about that size?",
   "answers": [{"by": "p-moran", "at": "2025-06-22T09:00:00Z", "text": "The ledger enters it by maker and size; the hanger has its two holes at 16 in."}], "state": "answered"},
  {"id": "y-sash", "on": "r-sash-width", "by": "p-okoro", "at": "2025-06-20T12:20:00Z", "text": "Who says the hen-house sash is Teal's and not a carriage's?",
   "answers": [{"by": "p-weir", "at": "2025-06-23T09:00:00Z", "text": "Stamped 4 on the bottom rail, the car's number; carriages ran to 3 only."}], "state": "settled", "closed": "2025-06-25T12:10:00Z"},
  {"id": "y-brake", "on": "d-brake-lever", "by": "p-okoro", "at": "2025-06-20T12:30:00Z", "text": "Eighteen inches is yours. What would you have to see to change it?", "answers": [], "state": "open"},
  {"id": "y-door", "on": "d-door-width", "by": "p-okoro", "at": "2025-07-10T12:00:00Z", "text": "The ledger's inch is still unexplained. Has anyone looked for a rebate in the negative?", "answers": [], "state": "open"}
],
"signoffs": [
  {"id": "u-wheelbase", "on": "d-wheelbase", "by": "p-okoro", "at": "2025-07-12T12:00:00Z", "verdict": "seen", "text": "Seen, with both sheets."},
  {"id": "u-body-colour", "on": "d-seat-depth", "by": "p-okoro", "at": "2025-07-12T12:10:00Z", "verdict": "contested", "text": "A museum piece may be uncomfortable. Nineteen inches is nowhere in the evidence."}
],
"lowered": [
  {"id": "z-axle", "on": "d-axle-diameter", "grade": "C", "reason": "The bush may be of any later year; we do not trust it for the journal.", "by": "p-tsang", "at": "2025-06-30T10:00:00Z"}
],
"acknowledgements": [
  {"id": "c-letters", "finding": {"kind": "circular", "on": ["d-letter-height", "d-word-length", "g-print-letters", "g-works-letters"]},
   "reason": "Lettering will be set out full size on the panel and judged by eye against the picture.", "by": "p-hale", "at": "2025-07-15T10:00:00Z"}
]
})json");
}

}  // namespace

void addDecisions(nlohmann::ordered_json& document) {
    addRulings(document);
    addDepartures(document);
    addShop(document);
}

}  // namespace sample
