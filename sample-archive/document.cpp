#include "sample-archive/document.h"

#include "sample-archive/sizes.h"

#include <nlohmann/json.hpp>

namespace sample {

using Json = nlohmann::ordered_json;

void append(Json& document, const std::string& text) {
    Json parts = Json::parse(text);
    for (auto& [name, records] : parts.items()) {
        if (!records.is_array()) {
            document[name] = records;
            continue;
        }
        for (Json& record : records) {
            if (record.contains("formula")) {
                record["formula"] = withCodes(record["formula"].get<std::string>());
            }
            document[name].push_back(record);
        }
    }
}

void addDimensions(Json& document) {
    for (const Size& size : sizesOf(designed())) {
        Json record;
        record["id"] = size.id;
        record["code"] = codeOf(size.id);
        record["name"] = size.name;
        record["component"] = size.component;
        record["quantity"] = size.quantity;
        record["unit"] = size.unit;
        if (size.tolerance > 0) record["tolerance"] = size.tolerance;
        if (size.critical) record["critical"] = true;
        record["state"] = "w-built";
        document["dimensions"].push_back(std::move(record));
    }
}

Json exchangeDocument(const Pictures& pictures) {
    Json document;
    document["format"] = "lostlines-exchange";
    document["version"] = 1;
    addPeople(document);
    addSources(document);
    addDimensions(document);
    addParticulars(document);
    addFigures(document, pictures);
    addWritten(document);
    addGauged(document);
    addSeries(document);
    addDrawings(document, pictures);
    addBroadside(document, pictures);
    addRelations(document);
    addDecisions(document);
    return document;
}

}  // namespace sample
