#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

#include <string>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

constexpr double kLedgerDpi = 200.0;
constexpr double kPointsPerInch = 72.0;

/// A reading from the ledger with the box of its line on the page.
void ledger(Json& document, const std::string& id, const std::string& of, const std::string& value,
            int page, int row, const std::string& excerpt, const Json& more) {
    const double scale = kLedgerDpi / kPointsPerInch;
    Json record;
    record["id"] = id;
    record["of"] = of;
    record["basis"] = "stated";
    record["source"] = "s-ledger";
    record["value"] = value;
    record.update(more);
    record["excerpt"] = excerpt;
    const auto pixels = [scale](double points) { return static_cast<int>(points * scale); };
    record["at"] = {{"file", "f-ledger"},
                    {"page", page},
                    {"box", {pixels(50), pixels(76 + 22.0 * row), pixels(510), pixels(22)}}};
    document["readings"].push_back(std::move(record));
}

void addLedger(Json& document) {
    ledger(document, "r-ledger-hoop-sided", "d-hoop-sided", "1 3/4 in", 1, 0,
           "Oak, quarter sawn, for ten hoops sided 1 3/4 in", {{"rounded_to", 0.25}});
    ledger(document, "r-ledger-board", "d-sheathing", "5/8 in", 1, 1,
           "Red pine matchboard, 5/8 in finished, 3 in face", {{"rounded_to", 0.125}});
    ledger(document, "r-ledger-board-face", "d-board-face", "3 in", 1, 1,
           "Red pine matchboard, 5/8 in finished, 3 in face", {{"rounded_to", 0.25}});
    ledger(document, "r-ledger-channel-depth", "d-channel-depth", "6 in", 1, 2,
           "Steel channel 6 in x 2 1/2 in, two lengths 14 ft 3 in", {{"rounded_to", 0.125}});
    ledger(document, "r-ledger-channel-flange", "d-channel-flange", "2 1/2 in", 1, 2,
           "Steel channel 6 in x 2 1/2 in, two lengths 14 ft 3 in", {{"rounded_to", 0.125}});
    ledger(document, "r-ledger-channel-length", "d-channel-length", "14 ft 3 in", 1, 2,
           "Steel channel 6 in x 2 1/2 in, two lengths 14 ft 3 in", {{"rounded_to", 1.0}});
    ledger(document, "r-ledger-wheel", "d-wheel-diameter", "2'-0\"", 1, 4,
           "Wheels and axles, two pair, about 2 ft on the tread", {{"rounded_to", 2.0}});
    ledger(document, "r-ledger-wheelsets", "d-mass-wheelsets", "1240 lb", 1, 5,
           "weight of the two pair with boxes, 11 cwt 0 qr 8", {{"rounded_to", 4}});
    ledger(document, "r-ledger-engine", "d-mass-engine", "728 lb", 1, 6,
           "Engine, 12 h.p., with clutch and gear case, 6 cwt 2 qr 0", {{"rounded_to", 28}});
    ledger(document, "r-ledger-door", "d-door-width", "1 ft 9 in", 1, 7, "Door, teak, 1 ft 9 in",
           {{"rounded_to", 0.5}});
    ledger(document, "r-ledger-plate-length", "d-plate-length", "18 in", 1, 9,
           "Enamel name plate, 18 in x 4 1/2 in, T. Orrin", {{"rounded_to", 0.5}});
    ledger(document, "r-ledger-plate-height", "d-plate-height", "4 1/2 in", 1, 9,
           "Enamel name plate, 18 in x 4 1/2 in, T. Orrin", {{"rounded_to", 0.5}});
    ledger(document, "r-ledger-sash-width", "d-sash-width", "15 7/8 in", 1, 10,
           "Window sash, ash, 15 7/8 in x 22 3/8 in", {{"rounded_to", 0.125}});
    ledger(document, "r-ledger-sash-height", "d-sash-height", "22 3/8 in", 1, 10,
           "Window sash, ash, 15 7/8 in x 22 3/8 in", {{"rounded_to", 0.125}});
    ledger(document, "r-ledger-tank", "d-tank-volume", "2219 in3", 1, 11,
           "Petrol tank, copper, to hold 8 gallons",
           {{"half_width", 70}, {"reason", "Eight imperial gallons, to the half gallon."}});
    ledger(document, "r-ledger-seat", "d-seat-length", "6 ft 7 in", 2, 0,
           "Seat cushions, green leather cloth, the long one 6 ft 7 in", {{"rounded_to", 0.5}});
    ledger(document, "r-ledger-buffer-head", "d-buffer-head", "10 in", 2, 2,
           "Buffers, spring, 10 in heads", {{"rounded_to", 0.5}});
    ledger(document, "r-ledger-tare", "d-mass-tare", "5180 lb", 2, 4,
           "Car weighed on Corran bridge, tank dry, no tools, 46 cwt 1 qr", {{"rounded_to", 28}});
    ledger(document, "r-ledger-lamp", "d-lamp-glass", "7 in", 2, 6,
           "Lamps, oil, 7 in glass, one each end", {{"rounded_to", 0.5}});
}

}  // namespace

void addWritten(Json& document) {
    addLedger(document);
    append(document, R"json({"readings": [
  {"id": "r-plan-gauge", "of": "d-gauge", "basis": "figured", "source": "s-line-plan", "value": "3'-0\"", "rounded_to": 0.25,
   "excerpt": "Gauge of railway: 3 feet between the rails.", "at": {"file": "f-line-plan", "page": 1, "box": [160, 880, 900, 50]}},
  {"id": "r-catalogue-plate-length", "of": "d-plate-length", "basis": "stated", "source": "s-catalogue", "value": "18 in", "half_width": 0.0625,
   "excerpt": "No. 17, 18 in x 4 1/2 in, 1/16 in either way", "at": {"file": "f-catalogue", "page": 1, "box": [150, 470, 950, 55]}},
  {"id": "r-catalogue-plate-height", "of": "d-plate-height", "basis": "stated", "source": "s-catalogue", "value": "4 1/2 in", "half_width": 0.0625,
   "excerpt": "No. 17, 18 in x 4 1/2 in, 1/16 in either way", "at": {"file": "f-catalogue", "page": 1, "box": [150, 470, 950, 55]}},
  {"id": "r-news-over-buffers", "of": "d-over-buffers", "basis": "stated", "source": "s-newspaper", "value": "16'-0\"", "rounded_to": 12,
   "excerpt": "a handsome vehicle some sixteen feet over all", "at": {"file": "f-newspaper", "page": 1, "box": [165, 465, 900, 45]}},
  {"id": "r-told-headroom-middle", "of": "d-headroom-middle", "basis": "limit", "source": "s-recollection", "low": "5 ft 10 in", "high": "6 ft 3 in",
   "excerpt": "A six-foot man could just stand under the middle of the roof with his cap off.", "reason": "Just stand: between two inches under and three over six feet."},
  {"id": "r-told-headroom-side", "of": "d-headroom-side", "basis": "limit", "source": "s-recollection", "high": "5 ft 8 in",
   "excerpt": "At the sides you sat or you stooped.", "reason": "A man of middling height could not stand there."},
  {"id": "r-told-seat-height", "of": "d-seat-height", "basis": "told", "source": "s-recollection", "value": "17 in", "half_width": 2,
   "excerpt": "The seats were chair high, with a locker under."},
  {"id": "r-told-handle-height", "of": "d-handle-height", "basis": "told", "source": "s-recollection", "value": "24 in", "rounded_to": 6,
   "excerpt": "You reached for the handle without bending, two foot up or so."},
  {"id": "r-told-chain", "of": "d-chain-centres", "basis": "told", "source": "s-recollection", "value": "2 ft 6 in", "rounded_to": 6,
   "excerpt": "The chain was two foot and a half between the wheels of it, and always wanted taking up."},
  {"id": "r-sister-brake-block", "of": "d-brake-block", "basis": "analogous", "source": "s-sister", "value": "9 in",
   "reason": "Trolley No. 2 of the same shops has blocks 9 in long on wheels of the same size."},
  {"id": "r-sister-flange", "of": "d-flange-depth", "basis": "analogous", "source": "s-sister", "value": "1 in", "u": 0.05,
   "reason": "Wheels of trolley No. 2 are of the same pattern number."},
  {"id": "r-sister-seat", "of": "d-seat-height", "basis": "analogous", "source": "s-sister", "value": "16 3/4 in", "u": 0.4,
   "reason": "The lockers of trolley No. 2 are of one make with those in the ledger."},
  {"id": "r-sister-step-height", "of": "d-step-height", "basis": "analogous", "source": "s-sister", "value": "11 3/4 in", "u": 0.5,
   "reason": "The platforms were the same for both."},
  {"id": "r-scheme-seat-length", "of": "d-seat-length", "basis": "figured", "source": "s-proposal", "value": "6'-8\"", "rounded_to": 0.5,
   "excerpt": "SEAT 6'-8\"", "reason": "The scheme's long seat agrees with the plan of drawing 47; kept because nothing else figures it."},
  {"id": "r-scheme-door", "of": "d-door-height", "basis": "figured", "source": "s-proposal", "value": "4'-4\"", "rounded_to": 0.5,
   "excerpt": "DOOR 4'-4\"", "set_aside": "The scheme's door is another door; drawing 47 moved it."},
  {"id": "r-sketch-panel", "of": "d-lower-panel", "basis": "figured", "source": "s-sketch", "value": "42 1/2\"",
   "set_aside": "Copied from the tracing with its swapped figure; says nothing of its own."},
  {"id": "r-carnival-lamp", "of": "d-lamp-glass", "basis": "limit", "source": "s-carnival", "high": "6 1/2 in",
   "reason": "In the snapshot the glass passes between handrails that stand 6 1/2 in apart by the trolley's pattern."},
  {"id": "r-pillar-floor", "of": "d-handle-height", "basis": "limit", "source": "s-broadside", "low": "18 in", "high": "27 in",
   "reason": "The handle hangs on the waist rail: its foot is not below the panel's middle, its top not above the rail."},
  {"id": "r-limit-roof-overhang", "of": "d-roof-overhang", "basis": "limit", "source": "s-broadside", "low": "1 in", "high": "2 in",
   "reason": "The canvas passes the end boards by more than the beading and by less than the lamp iron."},
  {"id": "r-guess-brake-lever", "of": "d-brake-lever", "basis": "guessed", "value": 18, "half_width": 1.5, "by": "p-hale", "on": "2025-03-14",
   "reason": "The lever must clear the axle and give a man's pull of 60 lb the force the blocks want; 16 1/2 to 19 1/2 in would serve."},
  {"id": "r-guess-tank", "of": "d-tank-diameter", "basis": "guessed", "value": 11, "half_width": 1, "by": "p-hale", "on": "2025-03-14",
   "reason": "Copper drums of the trade came 10, 11 and 12 in across; 11 goes best under the seat."},
  {"id": "r-guess-chain", "of": "d-chain-centres", "basis": "guessed", "value": 31, "half_width": 2, "by": "p-moran", "on": "2025-03-14"},
  {"id": "r-guess-driven", "of": "d-driven-sprocket", "basis": "guessed", "value": 14.4, "half_width": 1, "by": "p-moran", "on": "2025-03-14",
   "reason": "Twenty-six minutes for nine miles at the engine's speed wants about 2.4 to 1; the small wheel is 6 in."},
  {"id": "r-guess-driving", "of": "d-driving-sprocket", "basis": "guessed", "value": 6, "half_width": 0.1, "by": "p-moran", "on": "2025-03-14",
   "reason": "The smallest wheel of this chain that a maker of the time lists.", "floor_reason": "Chain wheels come by whole teeth: the next smaller is 5.75 and the next larger 6.25 in."},
  {"id": "r-mass-body", "of": "d-mass-body", "basis": "stated", "source": "s-timber", "value": "1620 lb", "u": 140,
   "reason": "Volume of the timber in the body by drawings 47 and 49 at the table's weights; boards differ by a tenth."},
  {"id": "r-mass-underframe", "of": "d-mass-underframe", "basis": "stated", "source": "s-ledger", "value": "900 lb", "u": 40,
   "reason": "Two channels and the cross members at their section's weight, headstocks of oak, four buffers."},
  {"id": "r-mass-roof", "of": "d-mass-roof", "basis": "stated", "source": "s-timber", "value": "180 lb", "u": 25,
   "reason": "Boards 1/2 in, canvas and white lead."},
  {"id": "r-mass-seats", "of": "d-mass-seats", "basis": "guessed", "value": "360 lb", "half_width": 60,
   "reason": "Three cushions on lockers of deal, two lamps, tank dry."},
  {"id": "r-mass-brake", "of": "d-mass-brake", "basis": "analogous", "source": "s-sister", "value": "150 lb", "u": 15,
   "reason": "Brake gear of trolley No. 2, weighed in 2024."}
]})json");
}

}  // namespace sample
