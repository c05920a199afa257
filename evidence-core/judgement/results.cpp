#include "evidence-core/judgement/results.h"

#include "evidence-core/judgement/agreement.h"
#include "evidence-core/judgement/order.h"

#include <algorithm>

namespace evidence::judgement {

namespace {

ReadingResult readingResult(const Context& c, std::size_t at) {
    const auto& reading = c.solution.readings[at];
    const auto& unit = c.units[reading.dimension];
    const auto shown = [&](const std::optional<double>& canonical) {
        return canonical ? std::optional(unit.shown(*canonical)) : std::nullopt;
    };
    ReadingResult r;
    r.id = reading.id;
    r.value = shown(reading.value);
    r.u = shown(reading.u);
    if (const auto& known = reading.reliability) {
        r.residual = unit.shown(known->residual);
        if (reading.use != network::ReadingUse::Echo) {
            r.redundancy = known->redundancy;
            r.w = known->w;
            r.mde = shown(known->mde);
        }
    }
    r.pull = reading.pull;
    r.varianceShare = reading.varianceShare;
    r.echoOf = reading.echoOf;
    return r;
}

}  // namespace

NetworkResult networkResult(const network::Solution& s) {
    return {s.unknowns, s.observations, s.redundancy, s.chi2, s.p, s.converged};
}

std::vector<PartResult> partResults(const Context& c, std::span<const std::size_t> order) {
    std::vector<PartResult> parts;
    std::vector<std::size_t> place(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i;
    std::vector<std::pair<std::size_t, PartResult>> placed;
    for (const auto& part : c.solution.parts) {
        auto members = part.dimensions;
        std::ranges::sort(members, {}, [&](std::size_t d) { return place[d]; });
        PartResult result{{}, part.redundancy, part.chi2, part.p};
        for (const auto d : members) result.dimensions.push_back(c.solution.dimensions[d].id);
        placed.emplace_back(members.empty() ? order.size() : place[members.front()],
                            std::move(result));
    }
    std::ranges::stable_sort(placed, {}, [](const auto& pair) { return pair.first; });
    for (auto& pair : placed) parts.push_back(std::move(pair.second));
    return parts;
}

DimensionResult dimensionResult(const Context& c, std::size_t i, const Graded& graded) {
    const auto& d = c.solution.dimensions[i];
    const auto& unit = c.units[i];
    DimensionResult r;
    r.id = d.id;
    r.code = c.record(d).code.value_or("");
    r.unit = unit.name;
    if (d.value) r.value = unit.shown(*d.value);
    if (d.u) r.u = unit.shown(*d.u);
    if (d.interval95) {
        r.low95 = unit.shown(d.interval95->low);
        r.high95 = unit.shown(d.interval95->high);
    }
    r.draws = d.draws;
    r.grade = graded.grade;
    r.gradeWhy = graded.why;
    r.raiseBy = graded.raiseBy;
    auto mustHave = d.mustHave;
    std::ranges::sort(mustHave);
    for (const auto leaf : mustHave) r.mustHave.push_back(c.solution.leaves[leaf].id);
    r.steps = d.steps;
    r.estimable = d.estimable;
    r.restsOnGuess = d.restsOnGuess;
    r.guessPull = d.guessShare;
    r.withoutGuess = WithoutGuess{};
    if (d.valueWithoutGuess) r.withoutGuess->value = unit.shown(*d.valueWithoutGuess);
    if (d.uWithoutGuess) r.withoutGuess->u = unit.shown(*d.uWithoutGuess);
    r.origins = static_cast<int>(d.origins.size());
    for (const auto at : orderOfReadings(c, d.readings)) r.readings.push_back(readingResult(c, at));
    for (const auto& part : d.contributions) {
        const auto& leaf = c.solution.leaves[part.leaf];
        r.leaves.push_back({leaf.id, leaf.strength, part.share});
    }
    r.agreement = agreementOf(c, i);
    r.repeats = repeatsOf(c, i);
    r.digest = c.evidence[i];
    return r;
}

std::vector<RelationResult> relationResults(const Context& c) {
    std::vector<RelationResult> results;
    for (const auto at : orderOfRelations(c)) {
        const auto& r = c.solution.relations[at];
        results.push_back({r.id, r.misclosure, r.residual, r.redundancy, r.w, r.mde, r.holds});
    }
    return results;
}

std::vector<FrameResult> frameResults(const Context& c) {
    std::vector<FrameResult> results;
    for (const auto at : orderOfFrames(c)) {
        const auto& f = c.solution.frames[at];
        FrameResult result;
        result.id = f.id;
        result.model = record::nameOf(c.index.frame(f.id.text)->model);
        result.inchesPerPixel = f.inchesPerPixel;
        result.uRelative = f.uRelative;
        result.errors = f.errors;
        result.rmsPx = f.rmsPx;
        for (const auto& reference : f.references) {
            ReferenceResult shown;
            if (const auto& known = reference.reliability) {
                shown.residual = known->residual;
                shown.w = known->w;
                shown.mde = known->mde;
            }
            result.references.push_back(shown);
        }
        results.push_back(std::move(result));
    }
    return results;
}

std::vector<HurtsMost> hurtsMost(const Context& c) {
    std::vector<HurtsMost> list;
    for (const auto& hurt : c.solution.hurtsMost) {
        const auto& reading = c.solution.readings[hurt.reading];
        list.push_back({reading.id, hurt.checked, c.units[reading.dimension].shown(hurt.unseen),
                        c.solution.dimensions[hurt.dimension].id,
                        c.units[hurt.dimension].shown(hurt.moves)});
    }
    return list;
}

std::vector<SeekNext> seekNext(const Context& c, std::span<const std::size_t> order) {
    std::vector<std::size_t> place(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i;
    std::vector<SeekNext> list;
    for (const auto& wanted : c.solution.seekNext) {
        SeekNext next;
        next.dimension = c.solution.dimensions[wanted.dimension].id;
        next.by = record::nameOf(wanted.by);
        next.assumedU = c.units[wanted.dimension].shown(wanted.assumedU);
        next.gain = wanted.gain;
        auto helps = wanted.helps;
        std::ranges::sort(helps, {}, [&](std::size_t d) { return place[d]; });
        for (const auto d : helps) next.helps.push_back(c.solution.dimensions[d].id);
        list.push_back(std::move(next));
    }
    return list;
}

Result<std::vector<Covariance>> covariances(const Context& c, std::span<const std::string> wanted) {
    std::vector<std::size_t> dimensions;
    for (const auto& name : wanted) {
        const auto* dimension = c.index.dimensionByCode(name);
        if (!dimension) dimension = c.index.dimension(name);
        const auto at = dimension ? c.dimensionAt.find(dimension->id.text) : c.dimensionAt.end();
        if (at == c.dimensionAt.end())
            return refuse(Code::MissingTarget, "covariance",
                          "There is no dimension with the code or id '" + name +
                              "': name one that the register has.");
        dimensions.push_back(at->second);
    }
    std::vector<Covariance> list;
    for (std::size_t a = 0; a < dimensions.size(); ++a)
        for (std::size_t b = a; b < dimensions.size(); ++b)
            list.push_back({c.solution.dimensions[dimensions[a]].id,
                            c.solution.dimensions[dimensions[b]].id,
                            c.solution.covariance(dimensions[a], dimensions[b]) /
                                (c.units[dimensions[a]].factor * c.units[dimensions[b]].factor)});
    return list;
}

}  // namespace evidence::judgement
