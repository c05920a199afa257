#include "evidence-core/network/size_model.h"

#include <ranges>

namespace evidence::network {

namespace {

double at(const Eigen::VectorXd& x, std::size_t i) {
    return x(static_cast<Eigen::Index>(i));
}

}  // namespace

Prediction identity(const Eigen::VectorXd& x, std::size_t unknown) {
    Prediction out;
    out.value = out.size = at(x, unknown);
    out.slopes.push_back({unknown, 1.0});
    return out;
}

void addMarks(Prediction& to, const std::vector<Slope>& marks, const Eigen::VectorXd& x) {
    for (const auto& e : marks) {
        to.marks += e.slope * at(x, e.unknown);
        to.marksVariance += e.slope * e.slope;
        to.slopes.push_back(e);
    }
    to.value += to.marks;
}

Prediction SizeModel::predict(const Eigen::VectorXd& x) const {
    Prediction out;
    const double size = dimension ? at(x, *dimension) : fixed;
    double stretch = 1;
    for (const auto& e : relative) stretch += e.slope * at(x, e.unknown);
    out.value = size * stretch;
    if (dimension) out.slopes.push_back({*dimension, stretch});
    for (const auto& e : relative) out.slopes.push_back({e.unknown, e.slope * size});
    for (const auto& e : absolute) {
        out.value += e.slope * at(x, e.unknown);
        out.slopes.push_back({e.unknown, e.slope});
    }
    out.size = out.value;
    for (const auto& c : corrections | std::views::reverse) {
        if (!c.factor) {
            out.value -= c.amount + at(x, c.error);
            out.slopes.push_back({c.error, -1.0});
            continue;
        }
        const double factor = c.amount + at(x, c.error);
        if (!(factor > 0)) out.defined = false;
        out.value /= factor;
        out.perUnit /= factor;
        for (auto& s : out.slopes) s.slope /= factor;
        out.slopes.push_back({c.error, -out.value / factor});
    }
    return out;
}

}  // namespace evidence::network
