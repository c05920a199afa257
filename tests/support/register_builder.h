#pragma once

#include "evidence-core/judgement/analyse.h"
#include "evidence-core/record/register.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

/// Small registers for tests, one call for each record. References to records stay valid.
namespace testsupport {

namespace record = evidence::record;
namespace judgement = evidence::judgement;

class RegisterBuilder {
  public:
    record::Register reg;

    RegisterBuilder() {
        reg.people.push_back({.id = {"p1"}, .name = "Ada Brook"});
        reg.sources.reserve(64);
        reg.marks.reserve(64);
        reg.frames.reserve(64);
        reg.dimensions.reserve(64);
        reg.particulars.reserve(64);
        reg.readings.reserve(64);
        reg.relations.reserve(64);
    }

    record::Dimension& dimension(const std::string& id, const std::string& name) {
        reg.dimensions.push_back({.id = {id}, .code = upper(id), .name = name});
        return reg.dimensions.back();
    }
    record::Particular& particular(const std::string& id, const std::string& name) {
        reg.particulars.push_back({.id = {id}, .code = upper(id), .name = name});
        return reg.particulars.back();
    }
    /// A drawing by the maker, unless changed afterwards.
    record::Source& source(const std::string& id, const std::string& title,
                           record::SourceKind kind = record::SourceKind::Drawing,
                           record::Authority authority = record::Authority::Maker) {
        record::Source made;
        made.id = {id};
        made.code = upper(id);
        made.title = title;
        made.kind = kind;
        made.authority = authority;
        reg.sources.push_back(std::move(made));
        return reg.sources.back();
    }
    record::Source& pictured(const std::string& id, const std::string& title,
                             record::SourceKind kind, record::Authority authority) {
        auto& made = source(id, title, kind, authority);
        made.files.push_back(
            {.id = {"f" + id}, .path = id + ".png", .sha256 = std::string(64, 'a')});
        return made;
    }
    record::Reading& reading(const std::string& id, const std::string& of, record::Basis basis,
                             const std::string& source, record::Written value,
                             std::optional<double> u = std::nullopt) {
        record::Reading made;
        made.id = {id};
        made.of = {of};
        made.basis = basis;
        if (!source.empty()) made.source = record::SourceId{source};
        made.value = std::move(value);
        made.u = u;
        reg.readings.push_back(std::move(made));
        return reg.readings.back();
    }
    record::Reading& guess(const std::string& id, const std::string& of, double value,
                           double halfWidth) {
        auto& made = reading(id, of, record::Basis::Guessed, "", number(value));
        made.halfWidth = halfWidth;
        made.reason = "nothing shows it";
        return made;
    }
    record::Reading& limit(const std::string& id, const std::string& of, std::optional<double> low,
                           std::optional<double> high, const std::string& source = "") {
        record::Reading made;
        made.id = {id};
        made.of = {of};
        made.basis = record::Basis::Limit;
        if (!source.empty()) made.source = record::SourceId{source};
        if (low) made.low = number(*low);
        if (high) made.high = number(*high);
        made.reason = "must clear its neighbour";
        reg.readings.push_back(std::move(made));
        return reg.readings.back();
    }
    /// A horizontal segment of `pixels` on the file of `source`.
    void segment(const std::string& id, const std::string& source, double pixels,
                 double uPx = 0.5) {
        reg.marks.push_back(
            {.id = {id},
             .file = {"f" + source},
             .kind = record::MarkKind::Segment,
             .points = {{100, static_cast<double>(100 + 20 * reg.marks.size())},
                        {100 + pixels, static_cast<double>(100 + 20 * reg.marks.size())}},
             .uPx = uPx});
    }
    record::Frame& uniform(const std::string& id, const std::string& source) {
        record::Frame made;
        made.id = {id};
        made.file = {"f" + source};
        made.parallelWithin = 1.0;
        reg.frames.push_back(std::move(made));
        return reg.frames.back();
    }
    void reference(record::Frame& frame, const std::string& mark, double inches, double u,
                   const std::string& source, std::optional<record::Basis> basis) {
        record::Reference made;
        made.mark = {mark};
        made.length.value = number(inches);
        made.length.unit = "in";
        made.length.u = u;
        if (!source.empty()) made.length.source = record::SourceId{source};
        made.length.basis = basis;
        frame.references.push_back(std::move(made));
    }
    void referenceTo(record::Frame& frame, const std::string& mark, const std::string& dimension) {
        record::Reference made;
        made.mark = {mark};
        made.length.dimension = record::DimensionId{dimension};
        frame.references.push_back(std::move(made));
    }
    record::Reading& scaled(const std::string& id, const std::string& of, const std::string& frame,
                            const std::string& mark) {
        record::Reading made;
        made.id = {id};
        made.of = {of};
        made.basis = record::Basis::Scaled;
        made.frame = record::FrameId{frame};
        made.mark = record::MarkId{mark};
        reg.readings.push_back(std::move(made));
        return reg.readings.back();
    }
    record::Relation& relation(const std::string& id, const std::string& formula,
                               record::Basis basis, double u = 0) {
        record::Relation made;
        made.id = {id};
        made.formula = formula;
        made.basis = basis;
        made.u = u;
        made.reason = "the parts lie side by side";
        reg.relations.push_back(std::move(made));
        return reg.relations.back();
    }
    void ruling(const std::string& id, const std::string& on, record::Written value,
                const std::string& at = "2026-05-01T10:00:00Z") {
        record::Ruling made;
        made.id = {id};
        made.on = {on};
        made.value = std::move(value);
        made.reason = "the evidence bears it";
        made.by = {"p1"};
        made.at = at;
        reg.rulings.push_back(std::move(made));
    }

    [[nodiscard]] static record::Written number(double value) { return record::Number{value, {}}; }
    [[nodiscard]] judgement::Analysis analyse(const judgement::AnalyseOptions& options = {}) const {
        auto analysis = judgement::analyse(reg, options);
        if (!analysis) {
            ADD_FAILURE() << analysis.error().place << ": " << analysis.error().help;
            return {};
        }
        return std::move(*analysis);
    }

  private:
    [[nodiscard]] static std::string upper(std::string text) {
        std::ranges::transform(text, text.begin(), [](char c) {
            return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        });
        return text;
    }
};

[[nodiscard]] inline const judgement::DimensionResult& sizeIn(const judgement::Analysis& analysis,
                                                              const std::string& id) {
    static const judgement::DimensionResult none;
    for (const auto& result : analysis.dimensions)
        if (result.id.text == id) return result;
    ADD_FAILURE() << "no dimension " << id;
    return none;
}

[[nodiscard]] inline std::string letterOf(const judgement::Analysis& analysis,
                                          const std::string& id) {
    for (const auto& result : analysis.particulars)
        if (result.id.text == id) return std::string(record::nameOf(result.grade));
    return std::string(record::nameOf(sizeIn(analysis, id).grade));
}

/// The first finding of `kind` that concerns `on`; null where there is none.
[[nodiscard]] inline const judgement::Finding* findingOn(const judgement::Analysis& analysis,
                                                         const std::string& kind,
                                                         const std::string& on) {
    for (const auto& finding : analysis.findings)
        if (finding.kind == kind)
            for (const auto& id : finding.on)
                if (id.text == on) return &finding;
    return nullptr;
}

}  // namespace testsupport
