#include "evidence-core/network/net.h"
#include "evidence-core/network/pulls.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

/// Results of readings, relations and frames.
namespace evidence::network {

namespace {

/// The size a row reads, from its observed value and the frame as adjusted.
double valueOf(const Net& net, const Row& row, const Prediction& at) {
    return at.size + (misfitOf(row, at, net.fit.x, net.eq) + at.marks) / at.perUnit;
}

/// Difference of an echo from its leader and its u: frames they share cancel.
void writeEchoDifference(const Net& net, std::size_t echo, std::size_t leader,
                         ReadingSolution& to) {
    const Row& a = net.eq.rows[echo];
    const Row& b = net.eq.rows[leader];
    if (!net.known(a) || !net.known(b)) return;
    const Prediction atA = a.predict(net.fit.x), atB = b.predict(net.fit.x);
    to.echoDifference = valueOf(net, a, atA) - valueOf(net, b, atB);
    std::vector<Slope> difference;
    for (const auto& s : atA.slopes)
        if (!net.eq.isFolded[s.unknown]) difference.push_back({s.unknown, s.slope / atA.perUnit});
    for (const auto& s : atB.slopes)
        if (!net.eq.isFolded[s.unknown]) difference.push_back({s.unknown, -s.slope / atB.perUnit});
    const double variance = varianceOf(a, atA, net.eq) / (atA.perUnit * atA.perUnit) +
                            varianceOf(b, atB, net.eq) / (atB.perUnit * atB.perUnit) +
                            std::max(net.fit.covariance(difference, difference), 0.0);
    to.uEchoDifference = std::sqrt(variance);
}

void writeFrom(const Net& net, std::size_t r, const TriagedReading& t, ReadingSolution& to) {
    const Row& row = net.eq.rows[r];
    const Prediction at = row.predict(net.fit.x);
    const auto scale = t.frame && !t.pixels->angle ? net.eq.ofFrame[*t.frame] : std::nullopt;
    if (scale && !net.fit.has(*scale)) return;
    to.value = valueOf(net, row, at);
    to.u = ownU(net, row, at);
    const auto target = *net.eq.ofDimension[t.dimension];
    if (!net.fit.has(target)) return;
    if (t.use == ReadingUse::Echo) {
        Reliability echo;
        echo.residual = (misfitOf(row, at, net.fit.x, net.eq) + at.marks) / at.perUnit;
        to.reliability = echo;
        to.pull = 0.0;
        to.varianceShare = 0.0;
        return;
    }
    const auto place = net.placeOf(r);
    if (!place) return;
    to.reliability = reliabilityOf(net, *place);
    const auto column = *net.fit.columnOf[target];
    const double pull = place->part->influence->pull(column, place->row) * at.perUnit;
    to.pull = pull;
    const double variance = place->part->influence->covariance(column, column);
    if (variance > 0) to.varianceShare = std::min(pull * pull * *to.u * *to.u / variance, 1.0);
}

}  // namespace

void writeReadings(const Net& net, Solution& to) {
    for (std::size_t i = 0; i < net.triage.readings.size(); ++i) {
        const TriagedReading& t = net.triage.readings[i];
        ReadingSolution out;
        out.id = net.reg().readings[t.record].id;
        out.dimension = t.dimension;
        out.use = t.use;
        out.why = t.why;
        out.byDefault = t.spread ? t.spread->byDefault : t.pixels.has_value();
        out.floored = t.spread && t.spread->floored;
        if (t.echoOf) out.echoOf = net.reg().readings[net.triage.readings[*t.echoOf].record].id;
        if (const auto row = net.rowOfReading[i]) {
            if (t.use == ReadingUse::Used) out.leaf = net.eq.rows[*row].leaf;
            writeFrom(net, *row, t, out);
            if (t.echoOf && net.rowOfReading[*t.echoOf])
                writeEchoDifference(net, *row, *net.rowOfReading[*t.echoOf], out);
        } else if (t.value) {
            out.value = t.value->value;
            if (t.spread) out.u = t.spread->u;
        }
        to.dimensions[t.dimension].readings.push_back(to.readings.size());
        to.readings.push_back(std::move(out));
    }
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
        const Row& row = net.eq.rows[r];
        if (row.kind != RowKind::Limit || !net.fit.acting[r]) continue;
        for (const std::size_t at : to.dimensions[row.record].readings) {
            auto& reading = to.readings[at];
            if (reading.use != ReadingUse::Limit) continue;
            const auto is = [&](std::size_t leaf) {
                return net.eq.leaves[leaf].id == reading.id.text;
            };
            if (is(row.leaf)) reading.leaf = row.leaf;
            for (const std::size_t more : row.moreLeaves)
                if (is(more)) reading.leaf = more;
        }
    }
}

void writeRelations(const Net& net, Solution& to) {
    for (std::size_t l = 0; l < net.reg().relations.size(); ++l) {
        RelationSolution out;
        out.id = net.reg().relations[l].id;
        out.why = net.eq.relationWhy[l];
        out.dimensions = net.eq.relationDimensions[l];
        out.inequality = net.eq.relationSign[l] != RelationSign::Equal;
        const auto r = net.rowOfRelation[l];
        if (!r) {
            to.relations.push_back(std::move(out));
            continue;
        }
        const Row& row = net.eq.rows[*r];
        out.leaf = row.leaf;
        out.used = net.fit.acting[*r];
        out.inferred = out.used && row.role == RowRole::Infer;
        const auto& bad = net.fit.contradicted;
        out.contradicted = std::find(bad.begin(), bad.end(), *r) != bad.end();
        const auto place = net.placeOf(*r);
        std::optional<Reliability> found;
        if (out.used && place && net.known(row)) {
            found = reliabilityOf(net, *place);
            out.redundancy = found->redundancy;
        } else if (!out.used) {
            found = checkOf(net, *r);
        }
        if (!found) {
            out.why = "some of its dimensions have no value";
        } else {
            out.residual = found->residual;
            if (found->misfit) out.misclosure = -*found->misfit;
            out.uMisclosure = found->uMisfit;
            out.w = found->w;
            out.mde = found->mde;
            out.holds = !out.w || std::abs(*out.w) <= net.criticalW();
            if (out.contradicted && out.misclosure && !out.w)
                out.holds = std::abs(*out.misclosure) <= 1e-9;
            if (out.inequality && out.misclosure) {
                const double over =
                    row.sign == RelationSign::AtMost ? *out.misclosure : -*out.misclosure;
                out.holds = over <= kCover95 * out.uMisclosure.value_or(0);
            }
        }
        to.relations.push_back(std::move(out));
    }
}

void writeFrames(const Net& net, Solution& to) {
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> rowOf;
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r)
        if (net.eq.rows[r].kind == RowKind::Reference)
            rowOf[{net.eq.rows[r].record, net.eq.rows[r].reference}] = r;
    std::vector<bool> circular(net.eq.unknowns.size(), false);
    for (const auto& core : net.cores)
        for (const std::size_t i : core.unknowns) circular[i] = true;
    for (std::size_t f = 0; f < net.reg().frames.size(); ++f) {
        const auto& triaged = net.triage.frames[f];
        FrameSolution out;
        out.id = net.reg().frames[f].id;
        out.setAside = triaged.setAside;
        out.supported = triaged.supported;
        out.hasReference = triaged.printedScale.has_value();
        const auto scale = net.eq.ofFrame[f];
        if (scale) {
            out.footing = Footing::Undetermined;
            if (circular[*scale]) out.footing = Footing::Circular;
            if (net.fit.has(*scale)) {
                out.footing = Footing::Determined;
                const double s = net.fit.x(static_cast<Eigen::Index>(*scale));
                const std::vector<Slope> self{{*scale, 1.0}};
                out.inchesPerPixel = s;
                out.uRelative = std::sqrt(std::max(net.fit.covariance(self, self), 0.0)) / s;
                const auto& part = net.fit.parts[*net.fit.partOf[*scale]];
                out.errors = leafPullsOn(net, part, *net.fit.columnOf[*scale], s).components;
                for (auto& error : out.errors) error.u /= s;
            }
        }
        double squares = 0;
        int count = 0;
        for (std::size_t k = 0; k < triaged.references.size(); ++k) {
            const auto& t = triaged.references[k];
            ReferenceSolution ref;
            ref.id = fmt::format("{}/{}", out.id.text, k);
            ref.checked = t.check;
            ref.why = !triaged.why.empty() ? triaged.why : t.why;
            ref.dimension = t.dimension;
            if (t.length) ref.length = t.length->value;
            if (t.spread) {
                ref.uLength = t.spread->u;
                ref.byDefault = t.spread->byDefault;
                ref.floored = t.spread->floored;
            }
            if (t.dimension) {
                ref.length = to.dimensions[*t.dimension].value;
                ref.uLength = to.dimensions[*t.dimension].u;
            }
            if (t.pixels) ref.pixels = t.pixels->value;
            const auto it = rowOf.find({f, k});
            if (it != rowOf.end()) {
                const Row& row = net.eq.rows[it->second];
                const Prediction at = row.predict(net.fit.x);
                ref.leaf = row.leaf;
                ref.uPixels = std::sqrt(row.ownU * row.ownU + at.marksVariance);
                ref.used = net.fit.acting[it->second];
                out.hasReference = out.hasReference || ref.used;
                if (scale && net.fit.has(*scale) && net.known(row)) {
                    if (const auto place = net.placeOf(it->second))
                        ref.reliability = reliabilityOf(net, *place);
                    else if (!ref.used)
                        ref.reliability = checkOf(net, it->second);
                    const double px = misfitOf(row, at, net.fit.x, net.eq) + at.marks;
                    if (ref.used) {
                        squares += px * px;
                        ++count;
                    }
                }
                if (ref.used && ref.length)
                    out.longestReference = std::max(out.longestReference.value_or(0), *ref.length);
            }
            out.references.push_back(std::move(ref));
        }
        if (count > 0) out.rmsPx = std::sqrt(squares / count);
        to.frames.push_back(std::move(out));
    }
}

}  // namespace evidence::network
