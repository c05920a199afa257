#include "evidence-core/network/equation_builder.h"

#include "evidence-core/network/size_errors.h"
#include "evidence-core/network/size_model.h"
#include "evidence-core/network/strength.h"

#include <Eigen/Eigenvalues>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

namespace evidence::network {

EquationBuilder::EquationBuilder(const RegisterIndex& index, const Origins& origins,
                                 const Triage& triage)
    : m_index(index), m_reg(index.reg()), m_origins(origins), m_triage(triage) {
    for (std::size_t e = 0; e < m_reg.sharedErrors.size(); ++e) {
        const auto& shared = m_reg.sharedErrors[e];
        const auto* source = index.source(shared.source);
        if (shared.setAside || (source != nullptr && source->setAside)) continue;
        for (const auto& use : shared.on)
            m_sharedOn.emplace(use.record.text, std::pair{e, use.coefficient.value_or(1.0)});
    }
}

std::size_t EquationBuilder::leaf(Leaf leaf) {
    const auto [it, fresh] = m_leafById.emplace(leaf.id, m_eq.leaves.size());
    if (fresh) m_eq.leaves.push_back(std::move(leaf));
    return it->second;
}

Leaf EquationBuilder::leafOf(LeafKind kind, std::string id,
                             const std::optional<record::Basis>& basis,
                             const std::optional<record::SourceId>& source) const {
    Leaf out;
    out.kind = kind;
    out.id = std::move(id);
    out.basis = basis;
    out.source = source;
    out.origin = m_origins.of(source);
    out.strength = strengthOf(basis, source, m_origins);
    return out;
}

std::size_t EquationBuilder::error(const std::string& key, std::size_t leafIndex, double prior,
                                   double u, ErrorShape shape) {
    const auto [it, fresh] = m_errorByKey.emplace(key, m_eq.unknowns.size());
    if (fresh) {
        Unknown unknown;
        unknown.kind = UnknownKind::Error;
        unknown.start = prior;
        unknown.size = u > 0 ? u : 1.0;
        unknown.leaf = leafIndex;
        unknown.u = u;
        unknown.shape = shape;
        unknown.key = "e\x1f" + key;
        m_eq.unknowns.push_back(std::move(unknown));
    }
    return it->second;
}

void EquationBuilder::countMarkUses() {
    const auto use = [&](const PixelMeasure& measure) {
        for (const auto& id : measure.marks) ++m_markUses[id.text];
    };
    for (const auto& r : m_triage.readings)
        if (r.pixels && !r.spread && (r.use == ReadingUse::Used || r.use == ReadingUse::Echo))
            use(*r.pixels);
    for (const auto& f : m_triage.frames)
        if (f.why.empty())
            for (const auto& ref : f.references)
                if (ref.why.empty() && ref.pixels) use(*ref.pixels);
}

EquationBuilder::PixelError EquationBuilder::pixelError(const PixelMeasure& measure) {
    PixelError out;
    double variance = 0;
    const double defaultU = m_triage.settings.markU.value_or(kMarkUDefault);
    for (std::size_t k = 0; k < measure.marks.size(); ++k) {
        const auto& id = measure.marks[k];
        const MarkNumbers numbers = numbersOf(*m_index.mark(id), defaultU);
        const auto& slopes = measure.slopes[k];
        if (m_markUses[id.text] <= 1) {
            variance += (slopes * numbers.covariance * slopes.transpose())(0, 0);
            continue;
        }
        // Independent directions of the mark's covariance, each a unit error of its own; those
        // without any error (along a fitted line) drop out.
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(numbers.covariance);
        const double greatest = std::max(eigen.eigenvalues().maxCoeff(), 0.0);
        std::optional<record::SourceId> source;
        if (const auto* of = m_index.sourceOfFile(m_index.mark(id)->file)) source = of->id;
        Leaf mark = leafOf(LeafKind::Mark, id.text, record::Basis::Scaled, source);
        mark.byDefault = numbers.byDefault;
        const std::size_t index = leaf(std::move(mark));
        for (Eigen::Index i = 0; i < eigen.eigenvalues().size(); ++i) {
            const double lambda = eigen.eigenvalues()(i);
            if (!(lambda > 1e-14 * greatest)) continue;
            const double slope = slopes.dot(eigen.eigenvectors().col(i)) * std::sqrt(lambda);
            const std::size_t unknown =
                error(fmt::format("{}\x1f{}", id.text, i), index, 0, 1, ErrorShape::Normal);
            if (std::abs(slope) > 1e-9 * slopes.norm() * std::sqrt(greatest))
                out.shared.push_back({unknown, slope});
        }
    }
    out.ownU = std::sqrt(std::max(variance, 0.0));
    return out;
}

EquationBuilder::SizeErrors EquationBuilder::sharedErrors(const std::string& record) {
    SizeErrors out;
    const auto [from, to] = m_sharedOn.equal_range(record);
    std::vector<std::pair<std::size_t, double>> found;
    for (auto it = from; it != to; ++it) found.push_back(it->second);
    std::sort(found.begin(), found.end(), [&](const auto& a, const auto& b) {
        const auto key = [&](const auto& f) {
            const auto& shared = m_reg.sharedErrors[f.first];
            return std::tie(shared.label, shared.u, shared.id, f.second);
        };
        return key(a) < key(b);
    });
    for (const auto& [e, coefficient] : found) {
        const auto& shared = m_reg.sharedErrors[e];
        const std::size_t index =
            leaf(leafOf(LeafKind::SharedError, shared.id.text, shared.basis, shared.source));
        const std::size_t unknown =
            error(fmt::format("{}\x1f{}\x1f{:.17g}\x1f{}", shared.label,
                              record::nameOf(shared.kind), shared.u, shared.id.text),
                  index, 0, shared.u, ErrorShape::Normal);
        (shared.kind == record::SharedErrorKind::Relative ? out.relative : out.absolute)
            .push_back({unknown, coefficient});
    }
    return out;
}

void EquationBuilder::addWorkmanship(SizeErrors& errors, std::size_t dimension,
                                     const std::string& article) {
    const double u = workmanshipOf(m_reg.archive, m_reg.dimensions[dimension].component);
    if (!(u > 0) || m_triage.dimensions[dimension].measure != quantity::Measure::Length) return;
    Leaf own;
    own.kind = LeafKind::Workmanship;
    own.id = fmt::format("workmanship/{}/{}", article, m_reg.dimensions[dimension].id.text);
    const std::string key =
        fmt::format("workmanship\x1f{}\x1f{}", m_triage.dimensions[dimension].key, article);
    errors.absolute.push_back({error(key, leaf(std::move(own)), 0, u, ErrorShape::Normal), 1.0});
}

void EquationBuilder::addPlacing(SizeErrors& errors, const record::Frame& frame,
                                 const record::Source* source, const std::string& what) {
    const auto placing = placingOf(frame, source, m_triage.settings);
    if (!placing) return;
    const std::string origin = m_origins.of(source->id)->text;
    Leaf own;
    own.kind = LeafKind::Placing;
    own.id = fmt::format("placing/{}/{}", origin, what);
    own.source = source->id;
    own.origin = record::SourceId{origin};
    own.byDefault = placing->byDefault;
    const std::size_t unknown = error(own.id, leaf(own), 0, placing->u, placing->shape);
    errors.absolute.push_back({unknown, 1.0});
}

void EquationBuilder::addPriors() {
    for (std::size_t i = 0; i < m_eq.unknowns.size(); ++i) {
        const auto& unknown = m_eq.unknowns[i];
        if (unknown.kind != UnknownKind::Error || m_eq.isFolded[i]) continue;
        Row row;
        row.kind = RowKind::Prior;
        row.leaf = unknown.leaf;
        row.record = i;
        row.observed = unknown.start;
        row.ownU = unknown.u;
        row.ownShape = unknown.shape;
        row.unknowns = {i};
        row.strength = m_eq.leaves[unknown.leaf].strength;
        row.predict = [i](const Eigen::VectorXd& x) { return identity(x, i); };
        row.key = "prior\x1f" + unknown.key;
        m_eq.rows.push_back(std::move(row));
    }
}

void EquationBuilder::fold() {
    // How many rows an error acts in is a matter of structure: every slope that can be.
    Eigen::VectorXd x(static_cast<Eigen::Index>(m_eq.unknowns.size()));
    for (std::size_t i = 0; i < m_eq.unknowns.size(); ++i)
        x(static_cast<Eigen::Index>(i)) = m_eq.unknowns[i].start;
    std::vector<int> uses(m_eq.unknowns.size(), 0);
    std::vector<std::vector<std::size_t>> touched(m_eq.rows.size());
    for (std::size_t r = 0; r < m_eq.rows.size(); ++r) {
        for (const auto& s : m_eq.rows[r].predict(x).slopes) {
            touched[r].push_back(s.unknown);
            ++uses[s.unknown];
        }
    }
    m_eq.isFolded.assign(m_eq.unknowns.size(), false);
    for (std::size_t i = 0; i < m_eq.unknowns.size(); ++i)
        m_eq.isFolded[i] = m_eq.unknowns[i].kind == UnknownKind::Error && uses[i] <= 1 &&
                           m_eq.leaves[m_eq.unknowns[i].leaf].kind != LeafKind::SharedError;
    const auto byKey = [&](std::size_t a, std::size_t b) {
        return m_eq.unknowns[a].key < m_eq.unknowns[b].key;
    };
    for (std::size_t r = 0; r < m_eq.rows.size(); ++r) {
        auto& row = m_eq.rows[r];
        std::sort(touched[r].begin(), touched[r].end(), byKey);
        row.strength = m_eq.leaves[row.leaf].strength;
        for (const std::size_t more : row.moreLeaves)
            row.strength = worse(row.strength, m_eq.leaves[more].strength);
        for (const std::size_t i : touched[r]) {
            (m_eq.isFolded[i] ? row.folded : row.unknowns).push_back(i);
            if (m_eq.isFolded[i])
                row.strength = worse(row.strength, m_eq.leaves[m_eq.unknowns[i].leaf].strength);
        }
        if (row.role == RowRole::Infer) row.strength = worse(row.strength, record::Grade::BoxedIn);
    }
}

void EquationBuilder::sortByContent() {
    std::sort(m_eq.rows.begin(), m_eq.rows.end(),
              [](const Row& a, const Row& b) { return a.key < b.key; });
}

namespace {

/// Places 0 … n − 1 in the order of their keys: unknowns, leaves and rows are made in the order of
/// the content, so that no number depends on the order of the records.
template <class KeyOf>
std::vector<std::size_t> byContent(std::size_t n, KeyOf keyOf) {
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return keyOf(a) < keyOf(b); });
    return order;
}

}  // namespace

void EquationBuilder::addDimensions() {
    m_eq.ofDimension.resize(m_reg.dimensions.size());
    for (const std::size_t d : byContent(
             m_reg.dimensions.size(), [&](std::size_t i) { return m_triage.dimensions[i].key; })) {
        if (m_reg.dimensions[d].setAside) continue;
        m_eq.ofDimension[d] = m_eq.unknowns.size();
        Unknown unknown;
        unknown.kind = UnknownKind::Dimension;
        unknown.record = d;
        unknown.key = "d\x1f" + m_triage.dimensions[d].key;
        m_eq.unknowns.push_back(std::move(unknown));
    }
}

std::vector<std::size_t> EquationBuilder::addScales() {
    m_eq.ofFrame.resize(m_reg.frames.size());
    const auto keyOf = [&](std::size_t f) {
        const auto* source = m_triage.frames[f].source;
        const auto& frame = m_reg.frames[f];
        return fmt::format("f\x1f{}\x1f{}\x1f{}", source != nullptr ? source->title : "",
                           frame.page.value_or(1), frame.id.text);
    };
    auto order = byContent(m_reg.frames.size(), keyOf);
    for (const std::size_t f : order) {
        if (!m_triage.frames[f].why.empty()) continue;
        m_eq.ofFrame[f] = m_eq.unknowns.size();
        Unknown unknown;
        unknown.kind = UnknownKind::Scale;
        unknown.record = f;
        unknown.start = 1;
        unknown.key = keyOf(f);
        m_eq.unknowns.push_back(std::move(unknown));
    }
    return order;
}

Result<Equations> EquationBuilder::build() {
    countMarkUses();
    addDimensions();
    const auto frames = addScales();
    for (const std::size_t r : byContent(m_triage.readings.size(),
                                         [&](std::size_t i) { return m_triage.readings[i].key; }))
        addReading(r);
    addLimits();
    for (const std::size_t f : frames) addFrame(f);
    m_eq.relationWhy.resize(m_reg.relations.size());
    m_eq.relationDimensions.resize(m_reg.relations.size());
    m_eq.relationSign.resize(m_reg.relations.size());
    for (const std::size_t l : byContent(m_reg.relations.size(), [&](std::size_t i) {
             const auto& relation = m_reg.relations[i];
             return std::tie(relation.formula, relation.id);
         }))
        if (auto ok = addRelation(l); !ok) return tl::unexpected<Refusal>(ok.error());
    fold();
    addPriors();
    sortByContent();
    return std::move(m_eq);
}

Result<Equations> equationsOf(const RegisterIndex& index, const Origins& origins,
                              const Triage& triage) {
    return EquationBuilder(index, origins, triage).build();
}

double misfitOf(const Row& row, const Prediction& at, const Eigen::VectorXd& x,
                const Equations& eq) {
    double misfit = row.observed - at.value;
    for (const std::size_t i : row.folded)
        for (const auto& s : at.slopes)
            if (s.unknown == i)
                misfit += s.slope * (x(static_cast<Eigen::Index>(i)) - eq.unknowns[i].start);
    return misfit;
}

double varianceOf(const Row& row, const Prediction& at, const Equations& eq) {
    double variance = row.ownU * row.ownU;
    for (const std::size_t i : row.folded)
        for (const auto& s : at.slopes)
            if (s.unknown == i) variance += s.slope * s.slope * eq.unknowns[i].u * eq.unknowns[i].u;
    return variance;
}

}  // namespace evidence::network
