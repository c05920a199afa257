#include "evidence-core/exchange/read_document.h"

#include "evidence-core/exchange/from_json.h"

namespace evidence::exchange {

namespace {

constexpr std::string_view kFormat = "lostlines-exchange";

bool checkHead(JsonReader& reader, const Json& json) {
    if (!json.as<Json::Object>()) return reader.wrongType("an exchange document (an object)", json);
    const Json* format = json.find("format");
    if (!format)
        return reader.refuseHere(Code::MissingKey,
                                 "the key \"format\" is required here: \"lostlines-exchange\"");
    {
        const JsonReader::Step step(reader, std::string_view("format"));
        std::string name;
        if (!fromJson(reader, *format, name)) return false;
        if (name != kFormat)
            return reader.refuseHere(
                Code::BadDocument,
                "expected \"lostlines-exchange\" here; this is another kind of document");
    }
    const Json* version = json.find("version");
    if (!version)
        return reader.refuseHere(Code::MissingKey, "the key \"version\" is required here: 1");
    const JsonReader::Step step(reader, std::string_view("version"));
    int number = 0;
    if (!fromJson(reader, *version, number)) return false;
    if (number != 1)
        return reader.refuseHere(Code::BadDocument,
                                 "this program reads version 1; found " + std::to_string(number));
    return true;
}

bool readTables(JsonReader& reader, const Json& json, Document& document) {
    for (const auto& [key, value] : *json.as<Json::Object>()) {
        if (key == "format" || key == "version") continue;
        const JsonReader::Step step(reader, std::string_view(key));
        bool known = false;
        if (key == "archive") {
            known = document.hasArchive = true;
            fromJson(reader, value, document.reg.archive);
        }
        record::forEachTable(document.reg,
                             [&, &k = key, &v = value](std::string_view name, auto& table) {
                                 if (name != k) return;
                                 known = true;
                                 fromJson(reader, v, table);
                             });
        if (!known) reader.refuseHere(Code::UnknownKey, "an exchange document has no such key");
        if (reader.refused()) return false;
    }
    return true;
}

}  // namespace

Result<Document> readDocument(std::string_view text) {
    const auto json = parseJson(text);
    if (!json) return tl::unexpected<Refusal>(json.error());
    JsonReader reader;
    Document document;
    if (!checkHead(reader, *json) || !readTables(reader, *json, document))
        return tl::unexpected<Refusal>(reader.takeRefusal());
    return document;
}

}  // namespace evidence::exchange
