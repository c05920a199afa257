#include "evidence-core/exchange/explain_json.h"

#include "evidence-core/exchange/analysis_rows.h"
#include "evidence-core/exchange/json_number.h"
#include "evidence-core/judgement/thread.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace evidence::exchange {

namespace {

using Json = nlohmann::ordered_json;

std::string stageName(judgement::ThreadStage stage) {
    using judgement::ThreadStage;
    switch (stage) {
        case ThreadStage::Source:
            return "source";
        case ThreadStage::Mark:
            return "mark";
        case ThreadStage::Scale:
            return "scale";
        case ThreadStage::Reading:
            return "reading";
        case ThreadStage::Relation:
            return "relation";
        case ThreadStage::Value:
            return "value";
    }
    return {};
}

Json threadJson(const judgement::Thread& thread) {
    Json nodes = Json::array();
    for (const auto& node : thread.nodes)
        nodes.push_back({{"id", node.id},
                         {"stage", stageName(node.stage)},
                         {"title", node.title},
                         {"detail", node.detail},
                         {"strength", std::string(record::nameOf(node.strength))},
                         {"guess", node.guess},
                         {"echo", node.echo},
                         {"set_aside", node.setAside}});
    Json links = Json::array();
    for (const auto& link : thread.links)
        links.push_back({{"from", thread.nodes[link.from].id},
                         {"to", thread.nodes[link.to].id},
                         {"share", numberJson(link.share)}});
    return {{"nodes", std::move(nodes)}, {"links", std::move(links)}};
}

Json writtenJson(const record::Written& value) {
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    return numberJson(std::get<record::Number>(value).value);
}

/// Rows of the decisions on `on`: when, by whom and what.
Json decisionsJson(const record::AnyId& on, const record::Register& reg) {
    Json rulings = Json::array();
    for (const auto& r : reg.rulings)
        if (r.on == on)
            rulings.push_back({{"id", r.id.text},
                               {"value", writtenJson(r.value)},
                               {"reason", r.reason},
                               {"by", r.by.text},
                               {"at", r.at}});
    Json departures = Json::array();
    for (const auto& d : reg.departures)
        if (d.on == on)
            departures.push_back({{"id", d.id.text},
                                  {"to", writtenJson(d.to)},
                                  {"why", std::string(record::nameOf(d.why))},
                                  {"reason", d.reason}});
    Json slips = Json::array();
    for (const auto& s : reg.slips)
        if (s.on == on)
            slips.push_back({{"id", s.id.text},
                             {"value", writtenJson(s.value)},
                             {"by", s.by.text},
                             {"at", s.at}});
    Json made = Json::array();
    for (const auto& a : reg.asBuilt)
        if (a.on == on)
            made.push_back({{"id", a.id.text}, {"value", writtenJson(a.value)}, {"at", a.at}});
    return {{"rulings", std::move(rulings)},
            {"departures", std::move(departures)},
            {"slips", std::move(slips)},
            {"as_built", std::move(made)}};
}

Json agreementJson(const judgement::DimensionResult& dimension) {
    if (!dimension.agreement) return nullptr;
    const auto& a = *dimension.agreement;
    return {{"readings", a.readings},
            {"birge", numberJson(a.birge)},
            {"chi2", numberJson(a.chi2)},
            {"p", numberJson(a.p)},
            {"u_internal", numberJson(a.uInternal)},
            {"u_external", numberJson(a.uExternal)},
            {"between", numberJson(a.between)},
            {"median", numberJson(a.median)}};
}

Json repeatsJson(const judgement::DimensionResult& dimension) {
    if (!dimension.repeats) return nullptr;
    return {{"degrees", numberJson(dimension.repeats->degrees)},
            {"half_width95", numberJson(dimension.repeats->halfWidth)}};
}

}  // namespace

std::string explainJson(const record::AnyId& on, const record::Register& reg,
                        const judgement::Analysis& analysis) {
    Json document{{"format", "lostlines-explanation"}, {"version", 1}};
    for (const auto& dimension : analysis.dimensions)
        if (dimension.id.text == on.text) {
            document["dimension"] = dimensionJson(dimension);
            document["agreement"] = agreementJson(dimension);
            document["repeats"] = repeatsJson(dimension);
        }
    for (const auto& particular : analysis.particulars)
        if (particular.id.text == on.text) document["particular"] = particularJson(particular);
    if (document.size() == 2) return "null\n";
    document["thread"] = threadJson(judgement::threadOf(on, reg, analysis));
    document["decisions"] = decisionsJson(on, reg);
    Json findings = Json::array();
    for (const auto& finding : analysis.findings)
        if (std::ranges::find(finding.on, on) != finding.on.end())
            findings.push_back(findingJson(finding));
    document["findings"] = std::move(findings);
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace evidence::exchange
