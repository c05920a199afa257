#pragma once

#include "sample-archive/pictures.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace sample {

/// The exchange document of the sample archive (docs/exchange.md), complete.
[[nodiscard]] nlohmann::ordered_json exchangeDocument(const Pictures& pictures);

// The parts it is put together from; each adds records to arrays of `document`.
void addPeople(nlohmann::ordered_json& document);
void addSources(nlohmann::ordered_json& document);
void addDimensions(nlohmann::ordered_json& document);
void addFigures(nlohmann::ordered_json& document, const Pictures& pictures);
void addWritten(nlohmann::ordered_json& document);
void addGauged(nlohmann::ordered_json& document);
void addSeries(nlohmann::ordered_json& document);
void addBroadside(nlohmann::ordered_json& document, const Pictures& pictures);
void addDrawings(nlohmann::ordered_json& document, const Pictures& pictures);
void addRelations(nlohmann::ordered_json& document);
void addParticulars(nlohmann::ordered_json& document);
void addDecisions(nlohmann::ordered_json& document);

/// Appends records written as a JSON object of arrays; braces that hold a dimension's id inside a
/// `formula` become codes.
void append(nlohmann::ordered_json& document, const std::string& text);

}  // namespace sample
