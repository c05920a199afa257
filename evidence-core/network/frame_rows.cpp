#include "evidence-core/network/equation_builder.h"
#include "evidence-core/network/size_model.h"

#include <fmt/format.h>

#include <cmath>

/// Rows of scale frames: prints and references.
namespace evidence::network {

namespace {

/// Pixels of a reference: its true length over the scale, with the errors of shared marks.
struct ThroughScale {
    SizeModel size;
    std::vector<Slope> undone;  ///< relative errors of the stated length: true = stated / (1 + Σ)
    std::size_t scale = 0;
    std::vector<Slope> marks;

    [[nodiscard]] Prediction predict(const Eigen::VectorXd& x) const {
        const auto at = [&](std::size_t i) { return x(static_cast<Eigen::Index>(i)); };
        Prediction out = size.predict(x);
        const auto divide = [&](double by) {
            if (!(by > 0)) out.defined = false;
            out.value /= by;
            out.perUnit /= by;
            for (auto& s : out.slopes) s.slope /= by;
        };
        double stretch = 1;
        for (const auto& e : undone) stretch += e.slope * at(e.unknown);
        divide(stretch);
        for (const auto& e : undone)
            out.slopes.push_back({e.unknown, -e.slope * out.value / stretch});
        divide(at(scale));
        out.slopes.push_back({scale, -out.value / at(scale)});
        addMarks(out, marks, x);
        return out;
    }
};

}  // namespace

void EquationBuilder::addFrame(std::size_t f) {
    if (!m_eq.ofFrame[f]) return;
    const auto& frame = m_reg.frames[f];
    const auto& triaged = m_triage.frames[f];
    const std::size_t scale = *m_eq.ofFrame[f];
    for (std::size_t k = 0; k < triaged.references.size(); ++k)
        if (triaged.references[k].why.empty()) addReference(f, k);
    if (!triaged.printedScale) return;
    Row row;
    row.kind = RowKind::Print;
    row.record = f;
    std::optional<record::SourceId> source;
    if (triaged.source != nullptr) source = triaged.source->id;
    Leaf print = leafOf(LeafKind::Print, frame.id.text + "/print", frame.print->basis, source);
    print.byDefault = triaged.printedByDefault;
    row.leaf = leaf(std::move(print));
    row.observed = *triaged.printedScale;
    row.ownU = *triaged.printedScale * *triaged.printedU;
    row.predict = [scale](const Eigen::VectorXd& x) { return identity(x, scale); };
    row.key = "print\x1f" + m_eq.unknowns[scale].key;
    m_eq.rows.push_back(std::move(row));
}

void EquationBuilder::addReference(std::size_t f, std::size_t k) {
    const auto& frame = m_reg.frames[f];
    const auto& t = m_triage.frames[f].references[k];
    const std::size_t scale = *m_eq.ofFrame[f];
    const std::string id = fmt::format("{}/{}", frame.id.text, k);
    Row row;
    row.kind = RowKind::Reference;
    row.record = f;
    row.reference = k;
    row.role = t.check ? RowRole::Check : RowRole::Adjust;
    row.observed = t.pixels->value;

    Leaf own = leafOf(LeafKind::Reference, id, t.basis, t.source);
    own.strength = t.strength;
    own.byDefault = t.spread && t.spread->byDefault;
    own.floored = t.spread && t.spread->floored;
    const std::string sourceText = own.source ? own.source->text : "";
    row.leaf = leaf(std::move(own));

    ThroughScale model;
    model.scale = scale;
    SizeErrors errors = sharedErrors(id);
    std::string what;
    if (t.dimension) {
        model.size.dimension = *m_eq.ofDimension[*t.dimension];
        what = m_reg.dimensions[*t.dimension].id.text;
        if (m_triage.frames[f].source != nullptr &&
            m_triage.frames[f].source->kind == record::SourceKind::Photograph)
            addWorkmanship(errors, *t.dimension, m_triage.frames[f].source->id.text);
    } else {
        model.size.fixed = t.length->value;
        // What is common to the stated length stands between it and the true one: undone here.
        model.undone = std::move(errors.relative);
        errors.relative.clear();
        for (auto& e : errors.absolute) e.slope = -e.slope;
        // The same known length from the same source is one unknown, wherever it is used.
        what = sourceText.empty()
                   ? id
                   : fmt::format("{}/{:.17g}/{:.17g}", sourceText, t.length->value, t.spread->u);
        errors.absolute.push_back(
            {error("length\x1f" + what, row.leaf, 0, t.spread->u, t.spread->shape), 1.0});
    }
    const double fixed = model.size.fixed;
    addPlacing(errors, frame, m_triage.frames[f].source, what);
    model.size.relative = std::move(errors.relative);
    model.size.absolute = std::move(errors.absolute);
    PixelError pixels = pixelError(*t.pixels);
    row.ownU = pixels.ownU;
    model.marks = std::move(pixels.shared);
    row.predict = [model = std::move(model)](const Eigen::VectorXd& x) { return model.predict(x); };
    row.key = fmt::format("reference\x1f{}\x1f{:.17g}\x1f{:.17g}", m_eq.unknowns[scale].key,
                          t.pixels->value, fixed);
    m_eq.rows.push_back(std::move(row));
}

}  // namespace evidence::network
