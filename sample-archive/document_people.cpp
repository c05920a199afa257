#include "sample-archive/document.h"

#include <nlohmann/json.hpp>

namespace sample {

void addPeople(nlohmann::ordered_json& document) {
    append(document, R"json({
"archive": {
  "title": "Teal, petrol inspection railcar",
  "subject": "Petrol inspection railcar Teal of the Corran Valley Light Railway, 3 ft 0 in gauge, 1911",
  "statement": {
    "purpose": "To build a full-size reproduction of Teal as she left the Corran shops in May 1911, before the alterations of 1913 and 1919.",
    "significance": "The only motor vehicle the railway built for itself, and the only one of its hoop-framed bodies of which any drawing survives.",
    "method": "Sizes are taken in this order: surviving parts, figures on the railway's own drawings, sizes taken off drawings and the works photograph, limits seen in pictures, kindred practice. Where nothing speaks we say that we chose.",
    "survives": "One axlebox casting, one window sash, one roof bracket and one hanger of the name plate. The car was broken up in 1936.",
    "custody": "Originals remain with their holders; the group keeps scans only.",
    "deposit": "County record office, on completion."
  },
  "display_unit": "in", "smallest_fraction": 32, "workmanship": 0.03125,
  "settings": {"workmanship_by_component": {"Running gear": 0.015625, "Underframe": 0.03125}}
},
"people": [
  {"id": "p-hale", "name": "Ruth Hale", "role": "compiler"},
  {"id": "p-moran", "name": "Edwin Moran", "role": "draughtsman"},
  {"id": "p-tsang", "name": "Lily Tsang", "role": "builder"},
  {"id": "p-okoro", "name": "Daniel Okoro", "role": "reviewer"},
  {"id": "p-weir", "name": "Agnes Weir", "role": "archivist"}
],
"states": [
  {"id": "w-built", "label": "as first built", "from": "1911-05", "to": "1913-10"},
  {"id": "w-lengthened", "label": "with the luggage bay lengthened", "from": "1913-12", "to": "1919-03"},
  {"id": "w-new-roof", "label": "with the new roof", "from": "1919-04", "to": "1936"}
],
"enquiries": [
  {"id": "n-record-office", "asked": "County record office, Aldmouth", "by": "p-hale", "on": "2024-02-12", "reference": "CRO/24/311",
   "text": "Any drawing, ledger or photograph of the Corran Valley Light Railway's motor car Teal.",
   "due": "2024-03-31", "answer": "Drawings 47, 49 and 61 and the works ledger; copies supplied.", "answered_on": "2024-03-18",
   "sources": ["s-arrangement", "s-hoops", "s-alteration", "s-ledger"]},
  {"id": "n-orrin", "asked": "Successors of T. Orrin & Sons, plate-makers", "by": "p-weir", "on": "2024-05-02",
   "text": "The order for the name plate of 3 March 1911, and the limits the works held to.",
   "due": "2024-06-30", "answer": "No order books before 1926. Sent a copy of the list of 1909.", "answered_on": "2024-06-04",
   "sources": ["s-catalogue"]},
  {"id": "n-museum", "asked": "Narrow-gauge museum, Tarn Bridge", "by": "p-hale", "on": "2024-04-09",
   "text": "Drawings 48 and 50 to 60 of the Corran shops, above all the other hoops and the brake.",
   "due": "2024-06-01", "answer": "nothing found", "answered_on": "2024-05-27"},
  {"id": "n-descendants", "asked": "Family of J. A. Pendry, shop foreman", "by": "p-weir", "on": "2025-01-20",
   "text": "Whether any notebook or photograph of the winter of 1910 to 1911 is with the family.", "due": "2025-04-30"}
]
})json");
}

}  // namespace sample
