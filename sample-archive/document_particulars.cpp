#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

struct Said {
    const char* source;
    const char* value;
    const char* excerpt;
    const char* basis = "stated";
};

struct Fact {
    const char* id;
    const char* name;
    const char* component;
    const char* kind;
    std::vector<Said> said;
};

std::vector<Fact> facts() {
    return {{"q-hoop-timber",
             "Timber of the hoops",
             "Body/Roof",
             "material",
             {{"s-ledger", "oak", "Oak, quarter sawn, for ten hoops"},
              {"s-hoops", "oak", "SIDED 1 3/4\" OAK"}}},
            {"q-sheathing-timber",
             "Timber of the sides",
             "Body/Sides",
             "material",
             {{"s-ledger", "red pine", "Red pine matchboard, 5/8 in finished"}}},
            {"q-sash-timber",
             "Timber of the sash",
             "Body/Windows/Sash",
             "material",
             {{"s-ledger", "ash", "Ash for rails and sash"},
              {"s-sash", "ash", "Grain and rays under the glass"}}},
            {"q-rail-timber",
             "Timber of waist rail and cantrail",
             "Body/Sides",
             "material",
             {{"s-ledger", "ash", "Ash for rails and sash"}}},
            {"q-door-timber",
             "Timber of the door",
             "Body/Door",
             "material",
             {{"s-ledger", "teak", "Door, teak, 1 ft 9 in"}}},
            {"q-roof-cover",
             "Covering of the roof",
             "Body/Roof",
             "material",
             {{"s-ledger", "canvas, white lead", "Canvas, No. 4, for roof, with white lead"}}},
            {"q-channel-material",
             "Material of the underframe",
             "Underframe",
             "material",
             {{"s-ledger", "steel channel", "Steel channel 6 in x 2 1/2 in"}}},
            {"q-tank-material",
             "Material of the petrol tank",
             "Engine/Tank",
             "material",
             {{"s-ledger", "copper", "Petrol tank, copper"}}},
            {"q-axlebox-material",
             "Material of the axleboxes",
             "Running gear/Axleboxes",
             "material",
             {{"s-parts", "grey cast iron", "Fracture at the lug"}}},
            {"q-seat-cover",
             "Covering of the seats",
             "Inside/Seats",
             "material",
             {{"s-ledger", "green leather cloth", "Seat cushions, green leather cloth"}}},
            {"q-plate-material",
             "Make of the name plate",
             "Fittings/Name plate",
             "material",
             {{"s-catalogue", "enamelled iron, 18 gauge", "All plates of 18 gauge iron"}}},
            {"q-body-colour",
             "Colour of the bands",
             "Finish",
             "finish",
             {{"s-newspaper", "blue-green", "bands of a fine blue-green"},
              {"s-ledger", "teal green", "cream upper and lower, teal green bands"},
              {"s-recollection", "dark green", "Cream, and a green near black.", "told"}}},
            {"q-panel-colour",
             "Colour of the panels",
             "Finish",
             "finish",
             {{"s-newspaper", "cream", "painted cream with bands"},
              {"s-ledger", "cream", "Paint: cream upper and lower"}}},
            {"q-roof-colour",
             "Colour of the roof",
             "Body/Roof",
             "finish",
             {{"s-ledger", "white lead", "with white lead"}}},
            {"q-lettering",
             "Words on the side",
             "Finish/Lettering",
             "finish",
             {{"s-broadside", "CORRAN VALLEY", "On the lower panels, either side of the door"}}},
            {"q-plate-words",
             "Words on the name plate",
             "Fittings/Name plate",
             "finish",
             {{"s-broadside", "C.V.L.R. TEAL No. 4", "Read under a glass"}}},
            {"q-windows-count",
             "Windows a side",
             "Body/Windows",
             "count",
             {{"s-newspaper", "6", "has six large windows a side"},
              {"s-broadside", "6", "Counted, without the door's"},
              {"s-ledger", "6", "Window sash, ash, 6"}}},
            {"q-hoops-count",
             "Hoops",
             "Body/Roof",
             "count",
             {{"s-ledger", "10", "for ten hoops"}, {"s-broadside", "10", "Ends in the cantrail"}}},
            {"q-doors-count",
             "Doors on this side",
             "Body/Door",
             "count",
             {{"s-broadside", "1", "One door, fifth bay"}}},
            {"q-spokes-count",
             "Spokes of a wheel",
             "Running gear/Wheels",
             "count",
             {{"s-broadside", "8", "Leading wheel"}, {"s-arrangement", "8", "Side elevation"}}},
            {"q-buffers-count",
             "Buffers",
             "Underframe/Buffers",
             "count",
             {{"s-ledger", "4", "Buffers, spring, 10 in heads, 4"}}},
            {"q-seats-count",
             "Places to sit",
             "Inside/Seats",
             "count",
             {{"s-newspaper", "8", "It seats eight persons upon cushions"}}},
            {"q-louvre",
             "Louvre in the luggage bay",
             "Body/Sides",
             "presence",
             {{"s-broadside", "yes", "Behind the sixth window"},
              {"s-arrangement", "yes", "Side elevation"}}},
            {"q-name-plate",
             "Name plate below the side",
             "Fittings/Name plate",
             "presence",
             {{"s-broadside", "yes", "Between the leading wheel and the step"},
              {"s-ledger", "yes", "Enamel name plate"}}},
            {"q-lamps",
             "Lamps at the ends",
             "Fittings/Lamps",
             "presence",
             {{"s-ledger", "yes", "Lamps, oil, 7 in glass, one each end"}}},
            {"q-roof-brackets",
             "Brackets under the roof",
             "Body/Roof/Bracket",
             "presence",
             {{"s-bracket", "yes", "One survives"}}},
            {"q-bell",
             "Bell",
             "Fittings",
             "presence",
             {{"s-recollection", "yes", "There was a bell on the front end, from the old tram.",
               "told"}}},
            {"q-hinges", "Hinges of the door", "Body/Door", "fastener", {}},
            {"q-hoop-joint", "Joint of hoop and sill", "Body/Roof", "process", {}},
            {"q-board-nails",
             "Nailing of the matchboard",
             "Body/Sides",
             "fastener",
             {{"s-sister", "cut clasp nails, 1 1/2 in", "As on trolley No. 2", "analogous"}}},
            {"q-sand", "Sanding gear", "Running gear", "presence", {}},
            {"q-brake-kind",
             "Kind of brake",
             "Brake",
             "other",
             {{"s-ledger", "hand wheel and screw", "Hand brake, wheel and screw"}}}};
}

}  // namespace

void addParticulars(Json& document) {
    for (const Fact& fact : facts()) {
        document["particulars"].push_back({{"id", fact.id},
                                           {"name", fact.name},
                                           {"component", fact.component},
                                           {"kind", fact.kind},
                                           {"state", "w-built"}});
        int number = 0;
        for (const Said& said : fact.said) {
            Json record;
            record["id"] = "r-" + std::string(fact.id).substr(2) + "-" + std::to_string(++number);
            record["of"] = fact.id;
            record["basis"] = said.basis;
            record["source"] = said.source;
            record["value"] = said.value;
            record["excerpt"] = said.excerpt;
            document["readings"].push_back(std::move(record));
        }
    }
    append(document, R"json({"readings": [
  {"id": "r-hinges-guess", "of": "q-hinges", "basis": "guessed", "value": "three brass butts, 4 in", "by": "p-tsang", "on": "2025-04-02",
   "reason": "Teak of this height and weight wants three; the picture shows no strap."},
  {"id": "r-hoop-joint-guess", "of": "q-hoop-joint", "basis": "guessed", "value": "bare-faced tenon, pinned", "by": "p-tsang", "on": "2025-04-02",
   "reason": "The joint of the shops' own shed doors; no bolt heads show below the sill."}
]})json");
}

}  // namespace sample
