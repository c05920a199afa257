#include "evidence-core/network/triage.h"

#include "evidence-core/frame/printed.h"
#include "evidence-core/network/strength.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace evidence::network {

using record::Basis;

namespace {

/// Finest step used on each source's sheet, by what it measures: `figured_to`, else found from its
/// figures.
class FiguredSteps {
  public:
    explicit FiguredSteps(const RegisterIndex& index) : m_index(&index) {}

    void add(const std::optional<record::SourceId>& source, quantity::Measure measure,
             double resolution) {
        if (!source || !(resolution > 0)) return;
        const auto [it, fresh] = m_finest.emplace(std::pair{source->text, measure}, resolution);
        if (!fresh) it->second = std::min(it->second, resolution);
    }
    [[nodiscard]] std::optional<double> of(const std::optional<record::SourceId>& source,
                                           quantity::Measure measure) const {
        const auto* record = m_index->source(source);
        if (record != nullptr && record->figuredTo && measure == quantity::Measure::Length)
            return record->figuredTo;
        if (!source) return std::nullopt;
        const auto it = m_finest.find({source->text, measure});
        if (it == m_finest.end()) return std::nullopt;
        return it->second;
    }

  private:
    const RegisterIndex* m_index;
    std::map<std::pair<std::string, quantity::Measure>, double> m_finest;
};

class Sorter {
  public:
    Sorter(const RegisterIndex& index, const Origins& origins)
        : m_index(index), m_reg(index.reg()), m_origins(origins), m_steps(index) {}

    Result<Triage> run() {
        m_out.settings = m_reg.archive.settings.value_or(record::Settings{});
        for (std::size_t i = 0; i < m_reg.dimensions.size(); ++i)
            if (auto r = dimension(i); !r) return tl::unexpected<Refusal>(r.error());
        for (std::size_t i = 0; i < m_reg.readings.size(); ++i)
            if (auto r = readValue(i); !r) return tl::unexpected<Refusal>(r.error());
        for (std::size_t i = 0; i < m_reg.frames.size(); ++i)
            if (auto r = frame(i); !r) return tl::unexpected<Refusal>(r.error());
        for (std::size_t i = 0; i < m_reg.frames.size(); ++i)
            if (auto r = referenceSpreads(i); !r) return tl::unexpected<Refusal>(r.error());
        for (auto& reading : m_out.readings)
            if (auto r = sortReading(reading); !r) return tl::unexpected<Refusal>(r.error());
        return std::move(m_out);
    }

  private:
    Result<void> dimension(std::size_t i) {
        const auto& d = m_reg.dimensions[i];
        const auto unit = unitOf(d);
        if (!unit) {
            Refusal refusal = unit.error();
            refusal.place = fmt::format("/dimensions/{}/unit", i);
            return tl::unexpected<Refusal>(std::move(refusal));
        }
        m_out.dimensions.push_back(
            {measureOf(d.quantity), *unit,
             fmt::format("{}\x1f{}\x1f{}\x1f{}\x1f{}", d.component.value_or(""), d.name,
                         record::nameOf(d.quantity), d.code.value_or(""), d.id.text)});
        return {};
    }

    Result<void> readValue(std::size_t i) {
        const auto& r = m_reg.readings[i];
        const auto target = m_index.dimension(r.of.text);
        if (!target) return {};  // of a particular
        const auto& d = m_out.dimensions[*target];
        TriagedReading out;
        out.record = i;
        out.dimension = *target;
        out.basis = r.basis;
        out.unit = d.unit;
        const std::string place = fmt::format("/readings/{}", i);
        if (r.unit) {
            const auto unit = quantity::unitNamed(*r.unit, d.measure);
            if (!unit) return refuse(unit.error().code, place + "/unit", unit.error().help);
            out.unit = *unit;
        }
        out.source = r.source;
        if (r.basis == Basis::Scaled && !r.source) {
            const record::Mark* mark = r.mark
                                           ? m_index.mark(*r.mark)
                                           : (r.between ? m_index.mark((*r.between)[0]) : nullptr);
            const auto* from = mark != nullptr ? m_index.sourceOfFile(mark->file) : nullptr;
            if (from != nullptr) out.source = from->id;
        }
        out.origin = m_origins.of(out.source);
        if (r.value) {
            auto value = readWritten(*r.value, r.unit, d.measure, d.unit, place + "/value");
            if (!value) return tl::unexpected<Refusal>(value.error());
            out.basis = effectiveBasis(r.basis, *value);
            out.unit = value->unit;
            if (out.basis == Basis::Figured) m_steps.add(out.source, d.measure, value->resolution);
            out.value = *value;
        }
        for (const auto& [written, limit, key] :
             {std::tuple{&r.low, &out.low, "low"}, std::tuple{&r.high, &out.high, "high"}}) {
            if (!*written) continue;
            const auto value = readWritten(**written, r.unit, d.measure, d.unit, place + "/" + key);
            if (!value) return tl::unexpected<Refusal>(value.error());
            *limit = value->value;
        }
        out.strength = strengthOf(r, out.source, m_reg.dimensions[*target], m_index, m_origins);
        if (out.basis != r.basis) {
            auto softened = r;
            softened.basis = out.basis;
            out.strength =
                strengthOf(softened, out.source, m_reg.dimensions[*target], m_index, m_origins);
        }
        m_out.readings.push_back(std::move(out));
        return {};
    }

    Result<void> frame(std::size_t i) {
        const auto& f = m_reg.frames[i];
        TriagedFrame out;
        out.source = m_index.sourceOfFile(f.file);
        out.setAside = f.setAside || (out.source != nullptr && out.source->setAside);
        out.supported =
            f.model == record::FrameModel::Uniform || f.model == record::FrameModel::Printed;
        if (out.setAside)
            out.why = "its scale frame is set aside";
        else if (!out.supported)
            out.why = fmt::format("frames of the model '{}' are not adjusted yet",
                                  record::nameOf(f.model));
        if (f.model == record::FrameModel::Printed && f.print && f.print->dpi &&
            f.print->drawnScale) {
            if (!(*f.print->dpi > 0) || !(*f.print->drawnScale > 0))
                return refuse(Code::BadValue, fmt::format("/frames/{}/print", i),
                              "Resolution and drawn scale must be above 0.");
            out.printedByDefault = !f.print->uRelative;
            out.printedU = f.print->uRelative.value_or(
                m_out.settings.printURelative.value_or(frame::kPrintedRelativeDefault));
            out.printedScale =
                frame::printedScale(*f.print->dpi, *f.print->drawnScale, *out.printedU)
                    .inchesPerPixel;
        }
        for (std::size_t k = 0; k < f.references.size(); ++k) {
            auto reference = this->reference(f, k, fmt::format("/frames/{}/references/{}", i, k));
            if (!reference) return tl::unexpected<Refusal>(reference.error());
            out.references.push_back(*std::move(reference));
        }
        m_out.frames.push_back(std::move(out));
        return {};
    }

    Result<TriagedReference> reference(const record::Frame& f, std::size_t k,
                                       const std::string& place) {
        const auto& ref = f.references[k];
        TriagedReference out;
        out.check = ref.use == record::Use::Check;
        const auto* mark = m_index.mark(ref.mark);
        if (mark == nullptr)
            return refuse(Code::MissingTarget, place + "/mark", "There is no such mark.");
        auto asked = record::DimensionQuantity::Length;
        if (ref.length.dimension) {
            out.dimension = m_index.dimension(ref.length.dimension->text);
            if (!out.dimension)
                return refuse(Code::MissingTarget, place + "/length/dimension",
                              "There is no such dimension.");
            const auto& d = m_reg.dimensions[*out.dimension];
            if (measureOf(d.quantity) != quantity::Measure::Length)
                return refuse(Code::BadUnit, place + "/length/dimension",
                              "A reference must be a length.");
            asked = d.quantity;
            out.basis = Basis::Measured;
            out.strength = record::Grade::TakenOff;
            const auto* source = m_index.sourceOfFile(f.file);
            if (source != nullptr) out.source = source->id;
            if (d.setAside) out.why = "its dimension is set aside";
        } else {
            if (auto ok = checkLength(ref.length, place + "/length"); !ok)
                return tl::unexpected<Refusal>(ok.error());
            out.length = readWritten(*ref.length.value, ref.length.unit, quantity::Measure::Length,
                                     quantity::Unit::Inch, place)
                             .value();
            out.source = ref.length.source;
            out.basis = ref.length.basis;
            if (!out.basis && out.source) out.basis = Basis::Stated;
            if (out.basis) out.basis = effectiveBasis(*out.basis, *out.length);
            out.strength = strengthOf(out.basis, out.source, m_origins);
            if (out.basis == Basis::Figured)
                m_steps.add(out.source, quantity::Measure::Length, out.length->resolution);
            if (!(out.length->value > 0)) out.why = "its length is not above 0";
        }
        auto pixels = measured(*mark, asked);
        if (!pixels)
            out.why = pixels.error();
        else
            out.pixels = *std::move(pixels);
        const auto* source = m_index.source(out.source);
        if (ref.setAside || mark->setAside || (source != nullptr && source->setAside))
            out.why = "it is set aside, or its mark or source is";
        return out;
    }

    Result<void> referenceSpreads(std::size_t i) {
        const auto& f = m_reg.frames[i];
        for (std::size_t k = 0; k < f.references.size(); ++k) {
            auto& out = m_out.frames[i].references[k];
            if (!out.length) continue;
            const auto& length = f.references[k].length;
            SpreadQuery q;
            q.basis = out.basis;
            q.u = length.u;
            q.halfWidth = length.halfWidth;
            q.shape = length.shape;
            q.roundedTo = length.roundedTo;
            q.figuredStep = m_steps.of(out.source, quantity::Measure::Length);
            q.floorReason = length.floorReason.has_value();
            const auto spread = spreadOf(*out.length, q, m_out.settings,
                                         fmt::format("/frames/{}/references/{}/length", i, k));
            if (!spread) return tl::unexpected<Refusal>(spread.error());
            out.spread = *spread;
        }
        return {};
    }

    Result<void> sortReading(TriagedReading& out) {
        const auto& r = m_reg.readings[out.record];
        const auto* source = m_index.source(out.source);
        if (r.setAside || m_reg.dimensions[out.dimension].setAside)
            aside(out, "set aside");
        else if (source != nullptr && source->setAside)
            aside(out, "its source is set aside");
        if (auto ok = r.mark || r.between ? sortScaled(out, r) : sortDirect(out, r); !ok) return ok;
        out.key = fmt::format(
            "{}\x1f{}\x1f{:.17g}\x1f{}\x1f{}", m_out.dimensions[out.dimension].key,
            record::nameOf(out.basis),
            out.value ? out.value->value : (out.pixels ? out.pixels->value : out.low.value_or(0)),
            source != nullptr ? source->title : "", r.id.text);
        return {};
    }

    static void aside(TriagedReading& out, std::string why) {
        out.use = ReadingUse::SetAside;
        out.why = std::move(why);
    }
    static void leaveOut(TriagedReading& out, std::string why) {
        if (out.use == ReadingUse::SetAside) return;
        out.use = ReadingUse::LeftOut;
        out.why = std::move(why);
    }

    [[nodiscard]] SpreadQuery queryOf(const TriagedReading& out, const record::Reading& r) const {
        const auto& d = m_reg.dimensions[out.dimension];
        SpreadQuery q;
        q.basis = out.basis;
        q.measure = measureOf(d.quantity);
        q.ratio = d.quantity == record::DimensionQuantity::Ratio;
        q.u = r.u;
        q.halfWidth = r.halfWidth;
        q.shape = r.shape;
        q.roundedTo = r.roundedTo;
        q.dof = r.dof;
        q.figuredStep = m_steps.of(out.source, q.measure);
        if (r.instrument) q.instrument = *r.instrument;
        q.floorReason = r.floorReason.has_value();
        return q;
    }

    Result<void> sortDirect(TriagedReading& out, const record::Reading& r) {
        const bool altered = r.basis == Basis::Gauged && r.feature == record::Feature::Altered;
        if (!out.value || altered) {
            if (out.low || out.high) {
                if (out.use == ReadingUse::Used) out.use = ReadingUse::Limit;
            } else {
                leaveOut(out, altered ? "an altered feature gives limits only"
                                      : "it has neither a value nor limits");
            }
            return {};
        }
        const auto spread = spreadOf(*out.value, queryOf(out, r), m_out.settings,
                                     fmt::format("/readings/{}", out.record));
        if (!spread) return tl::unexpected<Refusal>(spread.error());
        out.spread = *spread;
        return {};
    }

    Result<void> sortScaled(TriagedReading& out, const record::Reading& r) {
        const std::string place = fmt::format("/readings/{}", out.record);
        const auto& d = m_reg.dimensions[out.dimension];
        const bool angle = d.quantity == record::DimensionQuantity::Angle;
        if (measureOf(d.quantity) != quantity::Measure::Length && !angle) {
            leaveOut(out, "marks give lengths and angles only");
            return {};
        }
        const record::Mark* first = m_index.mark(r.mark ? *r.mark : (*r.between)[0]);
        const record::Mark* second = r.between ? m_index.mark((*r.between)[1]) : nullptr;
        if (first == nullptr || (r.between && second == nullptr))
            return refuse(Code::MissingTarget, place + (r.mark ? "/mark" : "/between"),
                          "There is no such mark.");
        if (first->setAside || (second != nullptr && second->setAside))
            aside(out, "its mark is set aside");
        auto pixels = second != nullptr ? measured(*first, *second, d.quantity)
                                        : measured(*first, d.quantity);
        if (!pixels) {
            leaveOut(out, pixels.error());
            return {};
        }
        out.pixels = *std::move(pixels);
        if (r.u || r.halfWidth || r.roundedTo) {
            const auto spread =
                spreadOf({0, 0, out.unit, false}, queryOf(out, r), m_out.settings, place);
            if (!spread) return tl::unexpected<Refusal>(spread.error());
            out.spread = *spread;
        }
        if (!r.frame) {
            leaveOut(out, "it names no scale frame");
            return {};
        }
        const record::Frame* frame = m_index.frame(*r.frame);
        if (frame == nullptr)
            return refuse(Code::MissingTarget, place + "/frame", "There is no such scale frame.");
        out.frame = static_cast<std::size_t>(frame - m_reg.frames.data());
        const auto& triaged = m_out.frames[*out.frame];
        if (triaged.setAside)
            aside(out, triaged.why);
        else if (!triaged.why.empty())
            leaveOut(out, triaged.why);
        if (r.offPlane && !(r.offPlane->distance > r.offPlane->offset && r.offPlane->distance > 0))
            return refuse(Code::BadValue, place + "/off_plane",
                          "The camera must be farther away than the offset.");
        return {};
    }

    const RegisterIndex& m_index;
    const record::Register& m_reg;
    const Origins& m_origins;
    FiguredSteps m_steps;
    Triage m_out;
};

}  // namespace

Result<Triage> triage(const RegisterIndex& index, const Origins& origins) {
    return Sorter(index, origins).run();
}

}  // namespace evidence::network
