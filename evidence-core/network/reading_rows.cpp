#include "evidence-core/frame/off_plane.h"
#include "evidence-core/frame/uniform.h"
#include "evidence-core/network/equation_builder.h"
#include "evidence-core/network/size_model.h"
#include "evidence-core/network/strength.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

/// Rows of readings and of limits.
namespace evidence::network {

namespace {

/// A pixel length through a frame: pixels = size / (scale · f(offset, distance)) · (1 + tilt).
struct ThroughFrame {
    SizeModel size;
    std::optional<std::size_t> scale;  ///< absent for angles, which need no frame
    std::optional<std::pair<std::size_t, std::size_t>> offPlane;  ///< offset, distance
    std::optional<std::size_t> tilt;
    std::optional<std::size_t> own;  ///< own error of the size, where the reading gives its u
    std::vector<Slope> pixels;       ///< errors of shared marks

    [[nodiscard]] Prediction predict(const Eigen::VectorXd& x) const {
        const auto at = [&](std::size_t i) { return x(static_cast<Eigen::Index>(i)); };
        Prediction out = size.predict(x);
        if (own) {
            // In the unit of the size: it acts behind the corrections, before the frame.
            out.value += at(*own) * out.perUnit;
            out.slopes.push_back({*own, out.perUnit});
        }
        const auto divide = [&](double by) {
            out.value /= by;
            out.perUnit /= by;
            for (auto& s : out.slopes) s.slope /= by;
        };
        if (scale) {
            if (!(at(*scale) > 0)) out.defined = false;
            divide(at(*scale));
            out.slopes.push_back({*scale, -out.value / at(*scale)});
        }
        if (offPlane) {
            const auto f = frame::offPlaneFactor(at(offPlane->first), at(offPlane->second));
            divide(f.value);
            out.slopes.push_back({offPlane->first, -out.value * f.jacobian(0) / f.value});
            out.slopes.push_back({offPlane->second, -out.value * f.jacobian(1) / f.value});
        }
        if (tilt) {
            const double untilted = out.value;
            divide(1 / (1 + at(*tilt)));
            out.slopes.push_back({*tilt, untilted});
        }
        addMarks(out, pixels, x);
        return out;
    }
};

}  // namespace

void EquationBuilder::addReading(std::size_t triaged) {
    const TriagedReading& t = m_triage.readings[triaged];
    if (t.use != ReadingUse::Used && t.use != ReadingUse::Echo) return;
    const auto& r = m_reg.readings[t.record];
    Row row;
    row.record = triaged;
    row.key = "r\x1f" + t.key;
    row.role = t.use == ReadingUse::Echo ? RowRole::Check : RowRole::Adjust;

    Leaf own = leafOf(LeafKind::Reading, r.id.text, t.basis, t.source);
    own.strength = t.strength;
    // A photograph gives no better than B where nobody said how its marks lie to the plane, or how
    // the plane lies to the film.
    if (t.pixels && !t.pixels->angle) {
        const auto* file = m_index.sourceOfFile(m_index.mark(t.pixels->marks[0])->file);
        const bool photograph = file != nullptr && file->kind == record::SourceKind::Photograph;
        const auto& through = m_reg.frames[*t.frame];
        if (photograph && (!r.offPlane || (through.model == record::FrameModel::Uniform &&
                                           !through.parallelWithin)))
            own.strength = worse(own.strength, record::Grade::BoxedIn);
    }
    own.byDefault = t.spread ? t.spread->byDefault : t.pixels.has_value();
    own.floored = t.spread && t.spread->floored;
    row.leaf = leaf(std::move(own));

    SizeModel size;
    size.dimension = *m_eq.ofDimension[t.dimension];
    SizeErrors errors = sharedErrors(r.id.text);
    const auto* source = m_index.source(t.source);
    const auto* fileSource =
        t.pixels ? m_index.sourceOfFile(m_index.mark(t.pixels->marks[0])->file) : nullptr;
    const bool photographed =
        fileSource != nullptr && fileSource->kind == record::SourceKind::Photograph;
    if (r.basis == record::Basis::Gauged || photographed)
        addWorkmanship(errors, t.dimension,
                       r.article.value_or(t.source ? t.source->text : r.id.text));
    if (t.pixels && !t.spread && !t.pixels->angle)
        addPlacing(errors, m_reg.frames[*t.frame], fileSource != nullptr ? fileSource : source,
                   m_reg.dimensions[t.dimension].id.text);
    size.relative = std::move(errors.relative);
    size.absolute = std::move(errors.absolute);
    for (std::size_t c = 0; c < r.corrections.size(); ++c) {
        const auto& correction = r.corrections[c];
        CorrectionStep step;
        step.factor = correction.factor.has_value();
        step.amount = step.factor ? *correction.factor
                                  : quantity::toCanonical(correction.add.value_or(0), t.unit);
        const double u = step.factor
                             ? correction.u.value_or(0)
                             : std::abs(quantity::toCanonical(correction.u.value_or(0), t.unit));
        // An error of nothing but this correction; without u it is exact.
        const std::string id = fmt::format("{}/corrections/{}", r.id.text, c);
        step.error =
            error(id, leaf(leafOf(LeafKind::Correction, id, correction.basis, correction.source)),
                  0, u, ErrorShape::Normal);
        size.corrections.push_back(step);
    }
    row.steps = 1 + static_cast<int>(r.corrections.size());

    if (!t.pixels) {
        row.kind = RowKind::Direct;
        row.observed = t.value->value;
        row.ownU = t.spread->u;
        row.ownShape = t.spread->shape;
        row.predict = [size](const Eigen::VectorXd& x) { return size.predict(x); };
        m_eq.rows.push_back(std::move(row));
        return;
    }

    row.kind = RowKind::Scaled;
    row.observed = t.pixels->value;
    ThroughFrame model;
    model.size = std::move(size);
    const auto& frame = m_reg.frames[*t.frame];
    if (!t.pixels->angle) model.scale = *m_eq.ofFrame[*t.frame];
    if (t.spread) {
        // The reading's own u, in the unit of its size, stands for all that its marks bring.
        model.own = error("own\x1f" + r.id.text, row.leaf, 0, t.spread->u, t.spread->shape);
    } else {
        PixelError pixels = pixelError(*t.pixels);
        row.ownU = pixels.ownU;
        model.pixels = std::move(pixels.shared);
    }
    if (r.offPlane && !t.pixels->angle) {
        const auto& off = *r.offPlane;
        const std::string id = r.id.text + "/off_plane";
        const std::size_t index = leaf(leafOf(LeafKind::OffPlane, id, off.basis, std::nullopt));
        double u = off.u.value_or(0);
        ErrorShape shape = ErrorShape::Normal;
        if (!off.u && off.low && off.high) {
            u = std::abs(*off.high - *off.low) / std::sqrt(12.0);
            shape = ErrorShape::Rectangular;
        }
        model.offPlane = {error(id + "/offset", index, off.offset, u, shape),
                          error(id + "/distance", index, off.distance, off.uDistance.value_or(0),
                                ErrorShape::Normal)};
        ++row.steps;
    }
    if (frame.parallelWithin && !t.pixels->angle)
        model.tilt = error(
            "tilt\x1f" + r.id.text, row.leaf, 0,
            frame::parallelWithinRelative(std::abs(*frame.parallelWithin) * std::numbers::pi / 180),
            ErrorShape::Normal);
    row.predict = [model](const Eigen::VectorXd& x) { return model.predict(x); };
    m_eq.rows.push_back(std::move(row));
}

void EquationBuilder::addLimits() {
    struct Bound {
        std::size_t reading = 0;
        double value = 0;
    };
    std::map<std::size_t, std::vector<std::size_t>> limitsOf;  // triaged readings, by dimension
    for (std::size_t i = 0; i < m_triage.readings.size(); ++i)
        if (m_triage.readings[i].use == ReadingUse::Limit)
            limitsOf[m_triage.readings[i].dimension].push_back(i);
    for (const auto& [d, limits] : limitsOf) {
        if (!m_eq.ofDimension[d]) continue;
        std::optional<Bound> low, high;
        for (const std::size_t i : limits) {
            const auto& t = m_triage.readings[i];
            const auto sooner = [&](const std::optional<Bound>& b) {
                return t.key < m_triage.readings[b->reading].key;
            };
            if (t.low && (!low || *t.low > low->value || (*t.low == low->value && sooner(low))))
                low = Bound{i, *t.low};
            if (t.high &&
                (!high || *t.high < high->value || (*t.high == high->value && sooner(high))))
                high = Bound{i, *t.high};
        }
        if (!low || !high || low->value > high->value) continue;
        Row row;
        row.kind = RowKind::Limit;
        row.role = RowRole::Backup;
        row.record = d;
        row.target = d;
        row.observed = (low->value + high->value) / 2;
        row.ownU = (high->value - low->value) / std::sqrt(12.0);
        row.ownShape = ErrorShape::Rectangular;
        const auto limitLeaf = [&](std::size_t reading) {
            const auto& t = m_triage.readings[reading];
            Leaf own = leafOf(LeafKind::Limit, m_reg.readings[t.record].id.text, t.basis, t.source);
            own.strength = t.strength;
            return leaf(std::move(own));
        };
        row.leaf = limitLeaf(low->reading);
        if (high->reading != low->reading) row.moreLeaves.push_back(limitLeaf(high->reading));
        row.predict = [unknown = *m_eq.ofDimension[d]](const Eigen::VectorXd& x) {
            return identity(x, unknown);
        };
        row.key = "limit\x1f" + m_triage.dimensions[d].key;
        m_eq.rows.push_back(std::move(row));
    }
}

}  // namespace evidence::network
