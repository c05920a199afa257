#include "tests/support/large_register.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace testsupport {

namespace {

using namespace evidence::record;

/// Share of the dimensions that are told to equal one anywhere before them.
constexpr double kFarLinks = 0.008;

class Maker {
  public:
    explicit Maker(const LargeRegister& shape) : m_shape(shape), m_chance(shape.seed) {}

    Register run() {
        m_reg.archive.title = "Large register";
        const int assemblies = std::max(1, m_shape.dimensions / m_shape.perAssembly);
        int made = 0;
        for (int a = 0; a < assemblies; ++a) {
            const int count = a + 1 == assemblies ? m_shape.dimensions - made : m_shape.perAssembly;
            assembly(a, count);
            made += count;
        }
        return std::move(m_reg);
    }

  private:
    double gauss(double u) { return std::normal_distribution<double>(0, u)(m_chance); }
    double even(double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(m_chance);
    }

    std::string source(SourceKind kind, const std::string& title) {
        Source s;
        s.id.text = "s" + std::to_string(m_reg.sources.size() + 1);
        s.title = title;
        s.kind = kind;
        s.authority = Authority::Maker;
        if (kind == SourceKind::Drawing) {
            File file;
            file.id.text = "f" + s.id.text;
            file.path = s.id.text + ".tif";
            s.files.push_back(std::move(file));
        }
        m_reg.sources.push_back(std::move(s));
        return m_reg.sources.back().id.text;
    }

    std::string segment(const std::string& sheet, double pixels) {
        Mark m;
        m.id.text = "m" + std::to_string(m_reg.marks.size() + 1);
        m.file.text = "f" + sheet;
        m.kind = MarkKind::Segment;
        const double y = 10.0 * static_cast<double>(m_reg.marks.size() % 1000 + 1);
        m.points = {{10, y}, {10 + pixels, y}};
        m.uPx = 0.7;
        m_reg.marks.push_back(std::move(m));
        return m_reg.marks.back().id.text;
    }

    Reading& reading(std::size_t d, Basis basis) {
        Reading r;
        r.id.text = "r" + std::to_string(m_reg.readings.size() + 1);
        r.of.text = m_reg.dimensions[d].id.text;
        r.basis = basis;
        m_reg.readings.push_back(std::move(r));
        return m_reg.readings.back();
    }

    void relation(std::string formula, double u, Basis basis) {
        Relation l;
        l.id.text = "l" + std::to_string(m_reg.relations.size() + 1);
        l.formula = std::move(formula);
        l.u = u;
        l.basis = basis;
        l.reason = "so made";
        m_reg.relations.push_back(std::move(l));
    }

    static std::string code(std::size_t d) { return "D" + std::to_string(d + 1); }

    /// Lengths of one assembly: every tenth is the sum of the four before it, every seventh equals
    /// its neighbour.
    void sizes(int a, int count) {
        const std::size_t first = m_truth.size();
        for (int i = 0; i < count; ++i) {
            Dimension d;
            const std::size_t at = m_truth.size();
            d.id.text = "d" + std::to_string(at + 1);
            d.code = code(at);
            d.name = "Length " + std::to_string(i + 1);
            d.component = "Assembly " + std::to_string(a + 1);
            d.quantity = DimensionQuantity::Length;
            if (i % 10 == 3) d.tolerance = 0.05;
            m_reg.dimensions.push_back(std::move(d));
            double truth = even(12, 90);
            const std::size_t inside = at - first;
            if (inside % 10 == 9) {
                truth = 0;
                std::string sum;
                for (std::size_t k = at - 4; k < at; ++k) {
                    truth += m_truth[k];
                    sum += (sum.empty() ? "" : " + ") + code(k);
                }
                relation(code(at) + " = " + sum, 0, Basis::Geometry);
            } else if (inside % 7 == 6) {
                truth = m_truth[at - 1] + gauss(0.05);
                relation(code(at) + " = " + code(at - 1), 0.05, Basis::Symmetry);
            }
            m_truth.push_back(truth);
            // The same section used again far away, in the same connected part.
            if (inside % 10 == 5 && even(0, 1) < kFarLinks * 10 && at > firstOfPart(a)) {
                const auto other =
                    std::uniform_int_distribution<std::size_t>(firstOfPart(a), at - 1)(m_chance);
                m_truth[at] = m_truth[other] + gauss(0.05);
                relation(code(at) + " = " + code(other), 0.05, Basis::Symmetry);
            }
        }
    }

    [[nodiscard]] std::size_t firstOfPart(int a) const {
        const int perPart = m_shape.assembliesPerPart;
        const int first = perPart == 0 ? 0 : a - a % perPart;
        return static_cast<std::size_t>(first) * static_cast<std::size_t>(m_shape.perAssembly);
    }

    void assembly(int a, int count) {
        const std::size_t first = m_truth.size();
        sizes(a, count);
        const bool joined =
            a > 0 && (m_shape.assembliesPerPart == 0 || a % m_shape.assembliesPerPart != 0);
        if (joined) {
            m_truth[first] = m_truth[first - 1] + gauss(0.1);
            relation(code(first) + " = " + code(first - 1), 0.1, Basis::Symmetry);
        }
        const std::string list = source(SourceKind::Text, "Parts list " + std::to_string(a + 1));
        const std::string letter = source(SourceKind::Text, "Letter " + std::to_string(a + 1));
        const std::string standard =
            source(SourceKind::Standard, "Standard " + std::to_string(a + 1));
        std::vector<std::pair<std::string, double>> sheets;
        for (int g = 0; g < 2; ++g) {
            const auto sheet =
                source(SourceKind::Drawing, "Sheet " + std::to_string(2 * a + g + 1));
            const double scale = even(0.04, 0.1);
            sheets.emplace_back(sheet, scale);
            Frame f;
            f.id.text = "g" + std::to_string(m_reg.frames.size() + 1);
            f.file.text = "f" + sheet;
            f.model = FrameModel::Uniform;
            const double known = 48 + gauss(0.03);
            Reference ref;
            ref.mark.text = segment(sheet, known / scale + gauss(1.0));
            ref.length.value = Number{48, {}};
            ref.length.u = 0.03;
            ref.length.basis = Basis::Stated;
            ref.length.source = SourceId{standard};
            f.references.push_back(std::move(ref));
            const std::size_t other = g == 1 && joined ? first - 2 : first;
            if (g == 1) {
                Reference by;
                by.mark.text = segment(sheet, m_truth[other] / scale + gauss(1.0));
                by.length.dimension = m_reg.dimensions[other].id;
                f.references.push_back(std::move(by));
            }
            m_reg.frames.push_back(std::move(f));
        }
        SharedError shrinkage;
        shrinkage.id.text = "e" + std::to_string(a + 1);
        shrinkage.label = "shrinkage " + std::to_string(a + 1);
        shrinkage.kind = SharedErrorKind::Relative;
        shrinkage.u = 0.001;
        shrinkage.basis = Basis::Measured;
        const double shrunk = gauss(0.001);
        for (std::size_t d = first; d < m_truth.size(); ++d) {
            auto& listed = reading(d, Basis::Stated);
            listed.source = SourceId{list};
            listed.u = 0.08;
            listed.value = Number{m_truth[d] + gauss(0.08), {}};
            if (d % 20 == 7) {
                auto& guess = reading(d, Basis::Guessed);
                guess.value = Number{m_truth[d] + even(-2, 2), {}};
                guess.halfWidth = 4;
            } else {
                auto& written = reading(d, Basis::Stated);
                written.source = SourceId{letter};
                written.u = 0.1;
                const bool shares = (d - first) % 5 == 0;
                written.value = Number{m_truth[d] * (shares ? 1 + shrunk : 1) + gauss(0.1), {}};
                if (shares) shrinkage.on.push_back({{written.id.text}, {}});
            }
            for (std::size_t g = 0; g < 2; ++g) {
                const auto mark =
                    segment(sheets[g].first, m_truth[d] / sheets[g].second + gauss(1.0));
                auto& scaled = reading(d, Basis::Scaled);
                scaled.frame = m_reg.frames[m_reg.frames.size() - 2 + g].id;
                scaled.mark = MarkId{mark};
            }
        }
        m_reg.sharedErrors.push_back(std::move(shrinkage));
    }

    LargeRegister m_shape;
    std::mt19937_64 m_chance;
    Register m_reg;
    std::vector<double> m_truth;
};

}  // namespace

Register largeRegister(const LargeRegister& shape) {
    return Maker(shape).run();
}

}  // namespace testsupport
