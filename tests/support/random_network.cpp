#include "tests/support/random_network.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace testsupport {

namespace {

using namespace evidence;
using record::Basis;
using record::SourceKind;

class Maker {
  public:
    Maker(std::mt19937_64& chance, bool normal) : m_chance(chance) { m_out.normal = normal; }

    RandomNetwork run() {
        const int count = whole(4, 16);
        for (int i = 0; i < count; ++i) size(i);
        const int sheets = whole(1, 4);
        for (int g = 0; g < sheets; ++g) sheet();
        for (int i = 0; i < count; ++i) evidenceFor(i);
        if (chance(0.6)) sharedError(record::SharedErrorKind::Relative);
        if (chance(0.4)) sharedError(record::SharedErrorKind::Absolute);
        shiftBySharedErrors();
        return std::move(m_out);
    }

  private:
    double gauss(double u) { return std::normal_distribution<double>(0, u)(m_chance); }
    double even(double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(m_chance);
    }
    int whole(int a, int b) { return std::uniform_int_distribution<int>(a, b)(m_chance); }
    bool chance(double p) { return even(0, 1) < p; }
    static std::string name(int i) { return "d" + std::to_string(i + 1); }
    static std::string code(int i) { return "D" + std::to_string(i + 1); }
    double& truth(int i) { return m_out.truth[static_cast<std::size_t>(i)]; }
    NetSketch& net() { return m_out.sketch; }

    /// A new length: free, or bound by a relation to those before it.
    void size(int i) {
        net().dimension();
        m_out.truth.push_back(even(10, 120));
        m_bound.push_back(false);
        if (i < 2 || !chance(0.35)) return;
        const int a = whole(0, i - 1), b = whole(0, i - 1);
        if (a == b) return;
        m_bound.back() = true;
        switch (whole(0, 3)) {
            case 0:
                truth(i) = truth(a) + truth(b);
                net().relation(code(i) + " = " + code(a) + " + " + code(b));
                break;
            case 1:
                truth(i) = 2 * truth(a) + truth(b);
                net().relation(code(i) + " - 2*" + code(a) + " = " + code(b));
                break;
            case 2:
                truth(i) = truth(a) + gauss(0.06);
                net().relation(code(i) + " = " + code(a), 0.06, Basis::Symmetry);
                break;
            default:
                truth(i) = 0.75 * truth(a) + gauss(0.1);
                net().relation(code(i) + " = 0.75*" + code(a), 0.1, Basis::TradeRule);
        }
    }

    /// A sheet with its scale, laid by one or two known lengths; one may be a dimension.
    void sheet() {
        const auto source = net().source(SourceKind::Drawing);
        const double scale = even(0.03, 0.12);
        m_sheets.push_back({source, scale});
        std::vector<record::Reference> references;
        const int count = whole(1, 2);
        for (int k = 0; k < count; ++k) {
            const double known = even(30, 90), u = even(0.02, 0.08);
            if (k == 1 && chance(0.5)) {
                const int d = whole(0, static_cast<int>(m_out.truth.size()) - 1);
                references.push_back(
                    NetSketch::reference(seen(m_sheets.size() - 1, truth(d)), name(d)));
                m_spoken.resize(m_out.truth.size(), false);
                m_spoken[static_cast<std::size_t>(d)] = true;
            } else {
                references.push_back(
                    NetSketch::reference(seen(m_sheets.size() - 1, known + gauss(u)), known, u,
                                         net().source(SourceKind::Standard), Basis::Stated));
            }
        }
        net().frame(source).references = std::move(references);
    }

    std::string seen(std::size_t sheet, double inches) {
        const double u = even(0.4, 1.2);
        return net().segment(m_sheets[sheet].source,
                             inches / m_sheets[sheet].scale + gauss(std::sqrt(2.0) * u), u);
    }

    void evidenceFor(int i) {
        m_spoken.resize(m_out.truth.size(), false);
        bool any = m_bound[static_cast<std::size_t>(i)] || m_spoken[static_cast<std::size_t>(i)];
        const int readings = whole(any ? 0 : 1, 3);
        for (int k = 0; k < readings; ++k) {
            const double kind = even(0, 1);
            if (kind < 0.45) {
                stated(i);
            } else if (kind < 0.6 && !m_out.normal) {
                rounded(i);
            } else if (kind < 0.7 && (!m_out.normal || (!any && readings == 1))) {
                guessed(i);
            } else {
                const auto sheet =
                    static_cast<std::size_t>(whole(0, static_cast<int>(m_sheets.size()) - 1));
                // One reading a sheet: others of the same origin would be echoes.
                if (!m_seen.insert({i, sheet}).second) continue;
                net().scaled(name(i), "g" + std::to_string(sheet + 1), seen(sheet, truth(i)));
            }
            any = true;
        }
        if (!any) stated(i);
    }

    void stated(int i) {
        const double u = even(0.04, 0.4);
        net().reading(name(i), truth(i) + gauss(u), u, net().source());
        m_direct.push_back(net().reg.readings.size() - 1);
    }
    void rounded(int i) {
        const double step = even(0.25, 1);
        // The grid lies anywhere: the rounding error is evenly spread.
        const double offset = even(0, step);
        net()
            .reading(name(i), std::round((truth(i) - offset) / step) * step + offset, std::nullopt,
                     net().source())
            .roundedTo = step;
    }
    void guessed(int i) {
        const double half = even(1.0, 1.5) * std::max(0.25, 0.04 * truth(i));
        auto& r =
            net().reading(name(i), truth(i) + even(-half, half), std::nullopt, {}, Basis::Guessed);
        r.halfWidth = half;
    }

    /// An error that two to five stated readings have in common.
    void sharedError(record::SharedErrorKind kind) {
        if (m_direct.size() < 2) return;
        const double u =
            kind == record::SharedErrorKind::Relative ? even(0.001, 0.004) : even(0.03, 0.1);
        auto& shared = net().sharedError(kind, u);
        const double size = gauss(u);
        std::shuffle(m_direct.begin(), m_direct.end(), m_chance);
        const auto count =
            std::min<std::size_t>(m_direct.size(), static_cast<std::size_t>(whole(2, 5)));
        for (std::size_t k = 0; k < count; ++k) {
            const auto& reading = net().reg.readings[m_direct[k]];
            shared.on.push_back({{reading.id.text}, {}});
            const int i = std::stoi(reading.of.text.substr(1)) - 1;
            m_shift.emplace_back(
                m_direct[k], kind == record::SharedErrorKind::Relative ? size * truth(i) : size);
        }
    }
    void shiftBySharedErrors() {
        for (const auto& [reading, by] : m_shift) {
            auto& number = std::get<record::Number>(*net().reg.readings[reading].value);
            number.value += by;
            number.text.clear();
        }
    }

    struct Sheet {
        std::string source;
        double scale = 1;
    };
    std::mt19937_64& m_chance;
    RandomNetwork m_out;
    std::vector<bool> m_bound;
    std::vector<bool> m_spoken;
    std::vector<Sheet> m_sheets;
    std::set<std::pair<int, std::size_t>> m_seen;
    std::vector<std::size_t> m_direct;
    std::vector<std::pair<std::size_t, double>> m_shift;
};

}  // namespace

RandomNetwork randomNetwork(std::mt19937_64& chance, bool normal) {
    return Maker(chance, normal).run();
}

}  // namespace testsupport
