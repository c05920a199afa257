#include "tests/evidence-core/network/net_sketch.h"

#include <fmt/format.h>

namespace testsupport {

using namespace evidence::record;

namespace {

template <class List>
std::string nextId(std::string_view letter, const List& list) {
    return fmt::format("{}{}", letter, list.size() + 1);
}

}  // namespace

std::string NetSketch::source(SourceKind kind, std::optional<Authority> authority) {
    Source s;
    s.id.text = nextId("s", reg.sources);
    s.title = "source " + s.id.text;
    s.kind = kind;
    s.authority = authority;
    File file;
    file.id.text = "f" + s.id.text;
    s.files.push_back(file);
    reg.sources.push_back(s);
    return s.id.text;
}

void NetSketch::descends(const std::string& child, const std::string& parent, DescentKind as) {
    for (auto& s : reg.sources)
        if (s.id.text == child) s.descends.push_back({{parent}, as, std::nullopt});
}

std::string NetSketch::dimension(DimensionQuantity quantity) {
    Dimension d;
    d.id.text = nextId("d", reg.dimensions);
    d.code = nextId("D", reg.dimensions);
    d.name = "dimension " + d.id.text;
    d.quantity = quantity;
    reg.dimensions.push_back(d);
    return d.id.text;
}

Reading& NetSketch::reading(const std::string& of, double value, std::optional<double> u,
                            const std::string& source, Basis basis) {
    Reading r;
    r.id.text = nextId("r", reg.readings);
    r.of.text = of;
    r.basis = basis;
    if (!source.empty()) r.source = SourceId{source};
    r.value = Number{value, fmt::format("{}", value)};
    r.u = u;
    reg.readings.push_back(r);
    return reg.readings.back();
}

Reading& NetSketch::limits(const std::string& of, std::optional<double> low,
                           std::optional<double> high) {
    Reading r;
    r.id.text = nextId("r", reg.readings);
    r.of.text = of;
    r.basis = Basis::Limit;
    if (low) r.low = Number{*low, {}};
    if (high) r.high = Number{*high, {}};
    reg.readings.push_back(r);
    return reg.readings.back();
}

std::string NetSketch::segment(const std::string& source, double pixels, double u) {
    Mark m;
    m.id.text = nextId("m", reg.marks);
    m.file.text = "f" + source;
    m.kind = MarkKind::Segment;
    const double y = 10.0 * ++m_segments;
    m.points = {{10, y}, {10 + pixels, y}};
    m.uPx = u;
    reg.marks.push_back(m);
    return m.id.text;
}

Frame& NetSketch::frame(const std::string& source, FrameModel model) {
    Frame f;
    f.id.text = nextId("g", reg.frames);
    f.file.text = "f" + source;
    f.model = model;
    reg.frames.push_back(f);
    return reg.frames.back();
}

Reference NetSketch::reference(const std::string& mark, double length, double u,
                               const std::string& source, std::optional<Basis> basis) {
    Reference ref;
    ref.mark.text = mark;
    ref.length.value = Number{length, {}};
    ref.length.u = u;
    ref.length.basis = basis;
    if (!source.empty()) ref.length.source = SourceId{source};
    return ref;
}

Reference NetSketch::reference(const std::string& mark, const std::string& dimension) {
    Reference ref;
    ref.mark.text = mark;
    ref.length.dimension = DimensionId{dimension};
    return ref;
}

Reading& NetSketch::scaled(const std::string& of, const std::string& frame,
                           const std::string& mark) {
    Reading r;
    r.id.text = nextId("r", reg.readings);
    r.of.text = of;
    r.basis = Basis::Scaled;
    r.frame = FrameId{frame};
    r.mark = MarkId{mark};
    reg.readings.push_back(r);
    return reg.readings.back();
}

Relation& NetSketch::relation(const std::string& formula, double u, Basis basis) {
    Relation l;
    l.id.text = nextId("l", reg.relations);
    l.formula = formula;
    l.u = u;
    l.basis = basis;
    l.reason = "as built up";
    reg.relations.push_back(l);
    return reg.relations.back();
}

SharedError& NetSketch::sharedError(SharedErrorKind kind, double u) {
    SharedError e;
    e.id.text = nextId("e", reg.sharedErrors);
    e.label = "shared " + e.id.text;
    e.kind = kind;
    e.u = u;
    e.basis = Basis::Measured;
    reg.sharedErrors.push_back(e);
    return reg.sharedErrors.back();
}

}  // namespace testsupport
