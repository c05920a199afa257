#include "evidence-core/exchange/analysis_json.h"

#include "evidence-core/exchange/analysis_rows.h"
#include "evidence-core/exchange/json_number.h"

#include <nlohmann/json.hpp>

namespace evidence::exchange {

namespace {

using Json = nlohmann::ordered_json;
using namespace judgement;

template <class Tag>
Json idOrNull(const std::optional<record::Id<Tag>>& id) {
    return id ? Json(id->text) : Json(nullptr);
}

template <class Tag>
Json idList(const std::vector<record::Id<Tag>>& ids) {
    Json list = Json::array();
    for (const auto& id : ids) list.push_back(id.text);
    return list;
}

Json gradeJson(record::Grade grade) {
    return std::string(record::nameOf(grade));
}

Json networkJson(const NetworkResult& n) {
    return {{"unknowns", n.unknowns},
            {"observations", n.observations},
            {"redundancy", numberJson(n.redundancy)},
            {"chi2", numberJson(n.chi2)},
            {"p", numberJson(n.p)},
            {"converged", n.converged}};
}

Json partJson(const PartResult& part) {
    return {{"dimensions", idList(part.dimensions)},
            {"redundancy", numberJson(part.redundancy)},
            {"chi2", numberJson(part.chi2)},
            {"p", numberJson(part.p)}};
}

Json readingJson(const ReadingResult& r) {
    return {{"id", r.id.text},
            {"value", numberJson(r.value)},
            {"u", numberJson(r.u)},
            {"residual", numberJson(r.residual)},
            {"redundancy", numberJson(r.redundancy)},
            {"w", numberJson(r.w)},
            {"mde", numberJson(r.mde)},
            {"pull", numberJson(r.pull)},
            {"variance_share", numberJson(r.varianceShare)},
            {"echo_of", idOrNull(r.echoOf)}};
}

Json withoutGuessJson(const std::optional<WithoutGuess>& without) {
    const WithoutGuess shown = without.value_or(WithoutGuess{});
    return {{"value", numberJson(shown.value)}, {"u", numberJson(shown.u)}};
}

Json relationJson(const RelationResult& r) {
    return {{"id", r.id.text},
            {"misclosure", numberJson(r.misclosure)},
            {"residual", numberJson(r.residual)},
            {"redundancy", numberJson(r.redundancy)},
            {"w", numberJson(r.w)},
            {"mde", numberJson(r.mde)},
            {"holds", r.holds}};
}

Json frameJson(const FrameResult& f) {
    Json references = Json::array();
    for (const auto& r : f.references)
        references.push_back({{"residual", numberJson(r.residual)},
                              {"w", numberJson(r.w)},
                              {"mde", numberJson(r.mde)}});
    return {{"id", f.id.text},
            {"model", f.model},
            {"inches_per_pixel", numberJson(f.inchesPerPixel)},
            {"u_relative", numberJson(f.uRelative)},
            {"rms_px", numberJson(f.rmsPx)},
            {"references", std::move(references)}};
}

std::string severityName(Severity severity) {
    switch (severity) {
        case Severity::High:
            return "high";
        case Severity::Medium:
            return "medium";
        case Severity::Low:
            return "low";
        case Severity::Note:
            return "note";
    }
    return {};
}

Json seekJson(const SeekNext& s) {
    return {{"dimension", s.dimension.text},
            {"by", s.by},
            {"assumed_u", numberJson(s.assumedU)},
            {"gain", numberJson(s.gain)},
            {"helps", idList(s.helps)}};
}

Json hurtJson(const HurtsMost& h) {
    return {{"reading", h.reading.text},
            {"checked", h.checked},
            {"unseen", numberJson(h.unseen)},
            {"dimension", h.dimension.text},
            {"moves", numberJson(h.moves)}};
}

Json covarianceJson(const Covariance& c) {
    return Json::array({c.a.text, c.b.text, numberJson(c.value)});
}

template <class Row>
Json listOf(const std::vector<Row>& rows, Json (*one)(const Row&)) {
    Json list = Json::array();
    for (const auto& row : rows) list.push_back(one(row));
    return list;
}

}  // namespace

Json dimensionJson(const DimensionResult& d) {
    Json readings = Json::array();
    for (const auto& reading : d.readings) readings.push_back(readingJson(reading));
    return {{"id", d.id.text},
            {"code", d.code},
            {"unit", d.unit},
            {"value", numberJson(d.value)},
            {"u", numberJson(d.u)},
            {"low95", numberJson(d.low95)},
            {"high95", numberJson(d.high95)},
            {"draws", d.draws},
            {"grade", gradeJson(d.grade)},
            {"grade_why", d.gradeWhy},
            {"raise_by", d.raiseBy},
            {"must_have", d.mustHave},
            {"steps", d.steps},
            {"estimable", d.estimable},
            {"rests_on_guess", d.restsOnGuess},
            {"guess_pull", numberJson(d.guessPull)},
            {"without_guess", withoutGuessJson(d.withoutGuess)},
            {"origins", d.origins},
            {"flags", d.flags},
            {"readings", std::move(readings)}};
}

Json particularJson(const ParticularResult& p) {
    return {{"id", p.id.text},
            {"value", p.value ? Json(*p.value) : Json(nullptr)},
            {"grade", gradeJson(p.grade)},
            {"grade_why", p.gradeWhy},
            {"origins", p.origins},
            {"agree", p.agree}};
}

Json findingJson(const Finding& f) {
    Json numbers = Json::object();
    for (const auto& [name, value] : f.numbers) numbers[name] = numberJson(value);
    return {{"kind", f.kind},
            {"severity", severityName(f.severity)},
            {"on", idList(f.on)},
            {"numbers", std::move(numbers)},
            {"text", f.text},
            {"settle", f.settle},
            {"acknowledged", f.acknowledged}};
}

std::string analysisJson(const Analysis& analysis) {
    const Json document{{"format", "lostlines-analysis"},
                        {"version", 1},
                        {"network", networkJson(analysis.network)},
                        {"parts", listOf(analysis.parts, partJson)},
                        {"dimensions", listOf(analysis.dimensions, dimensionJson)},
                        {"particulars", listOf(analysis.particulars, particularJson)},
                        {"relations", listOf(analysis.relations, relationJson)},
                        {"frames", listOf(analysis.frames, frameJson)},
                        {"covariance", listOf(analysis.covariance, covarianceJson)},
                        {"findings", listOf(analysis.findings, findingJson)},
                        {"seek_next", listOf(analysis.seekNext, seekJson)},
                        {"hurts_most", listOf(analysis.hurtsMost, hurtJson)}};
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace evidence::exchange
