#include "evidence-core/judgement/thread.h"

#include "evidence-core/judgement/thread_builder.h"
#include "evidence-core/judgement/thread_routes.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::judgement {

namespace {

// Leaves with a smaller share are gathered in one node; below rounding they are none.
constexpr double kShown = 0.01;
constexpr double kRounding = 1e-9;

template <class Results>
auto resultOf(const Results& results, const std::string& id) {
    const auto at = std::ranges::find_if(results, [&](const auto& r) { return r.id.text == id; });
    return at == results.end() ? nullptr : &*at;
}

std::string valueDetail(const DimensionResult& result) {
    if (!result.value) return fmt::format("no value, {}", record::nameOf(result.grade));
    std::optional<double> halfWidth;
    if (result.low95 && result.high95) halfWidth = (*result.high95 - *result.low95) / 2;
    return fmt::format("{}, {}", sizeText(*result.value, halfWidth, result.unit),
                       record::nameOf(result.grade));
}

void setStrength(ThreadNode& node, const LeafShare& leaf) {
    if (!leaf.strength) return;
    node.strength = *leaf.strength;
    node.guess = node.guess || *leaf.strength == record::Grade::OurCall;
}

/// The way of one leaf's share from its sources to the value.
void addLeaf(const Index& index, const Routes& routes, const LeafShare& leaf,
             ThreadBuilder& builder) {
    const auto route = routes.from(leaf.id);
    if (route.empty()) return;
    std::size_t to = builder.node(route.back(), ThreadStage::Value, "", "");
    // From the value backwards, so that every link knows what it leads to.
    for (std::size_t i = route.size() - 1; i-- > 0;) {
        const std::size_t from = routes.nodeOf(route[i], builder);
        builder.link(from, to, leaf.share);
        to = from;
    }
    setStrength(builder.at(to), leaf);
    if (const auto* reading = index.reading(leaf.id)) builder.linkOrigin(*reading, to, leaf.share);
    if (const auto reference = index.reference(leaf.id); reference.reference) {
        const auto& length = reference.reference->length;
        if (length.source)
            if (const auto* source = index.source(length.source->text))
                builder.link(builder.sourceNode(*source), to, leaf.share);
    }
}

Thread threadOfDimension(const record::Dimension& dimension, const DimensionResult& result,
                         const Index& index) {
    ThreadBuilder builder(index, dimension.id.text);
    const auto value =
        builder.node(dimension.id.text, ThreadStage::Value, nameOf(dimension), valueDetail(result));
    builder.at(value).strength = result.grade;
    builder.at(value).setAside = dimension.setAside.has_value();
    const Routes routes(index, dimension.id.text);
    std::size_t smaller = 0;
    double shareOfSmaller = 0;
    for (const auto& leaf : result.leaves) {
        const bool vital = std::ranges::find(result.mustHave, leaf.id) != result.mustHave.end();
        const auto* own = index.reading(leaf.id);
        if (leaf.share >= kShown || vital || (own && own->of.text == dimension.id.text)) {
            addLeaf(index, routes, leaf, builder);
        } else if (leaf.share > kRounding) {
            ++smaller;
            shareOfSmaller += leaf.share;
        }
    }
    if (smaller > 0)
        builder.link(builder.node(dimension.id.text + "/smaller", ThreadStage::Reading,
                                  countText(smaller, "smaller piece of evidence",
                                            "smaller pieces of evidence"),
                                  "each carries under 1 % of the doubt"),
                     value, shareOfSmaller);
    // What is known and carries nothing: echoes, limits and what was set aside.
    for (const auto* reading : index.readingsOf(dimension.id.text)) {
        const auto node = builder.readingNode(*reading, ThreadStage::Reading);
        const auto* known = resultOf(result.readings, reading->id.text);
        if (known && known->echoOf) builder.at(node).echo = true;
        builder.link(node, value, 0);
        builder.linkOrigin(*reading, node, 0);
        if (const auto* frame = reading->frame ? index.frame(reading->frame->text) : nullptr)
            builder.link(builder.scaleNode(*frame), node, 0);
    }
    return builder.take();
}

Thread threadOfParticular(const record::Particular& particular, const ParticularResult& result,
                          const Index& index) {
    ThreadBuilder builder(index, particular.id.text);
    const auto value = builder.node(particular.id.text, ThreadStage::Value, nameOf(particular),
                                    fmt::format("{}, {}", result.value.value_or("nothing known"),
                                                record::nameOf(result.grade)));
    builder.at(value).strength = result.grade;
    const auto& readings = index.readingsOf(particular.id.text);
    const auto used = std::ranges::count_if(readings, [](const auto* r) { return !r->setAside; });
    for (const auto* reading : readings) {
        const double share = reading->setAside || used == 0 ? 0.0 : 1.0 / static_cast<double>(used);
        const auto node = builder.readingNode(*reading, ThreadStage::Reading);
        builder.link(node, value, share);
        builder.linkOrigin(*reading, node, share);
    }
    return builder.take();
}

}  // namespace

Thread threadOf(const record::AnyId& on, const record::Register& reg, const Analysis& analysis) {
    const Index index(reg);
    if (const auto* dimension = index.dimension(on.text))
        if (const auto* result = resultOf(analysis.dimensions, on.text))
            return threadOfDimension(*dimension, *result, index);
    if (const auto* particular = index.particular(on.text))
        if (const auto* result = resultOf(analysis.particulars, on.text))
            return threadOfParticular(*particular, *result, index);
    return {on.text, {}, {}};
}

}  // namespace evidence::judgement
