#include "evidence-core/judgement/particular.h"

#include "evidence-core/judgement/grade.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <tuple>

namespace evidence::judgement {

namespace {

using record::Basis;
using record::Grade;

bool isSetAside(const Context& c, const record::Reading& reading, const record::Source* source) {
    if (reading.setAside || (source && source->setAside)) return true;
    const auto* mark = c.index.markOf(reading);
    return mark && mark->setAside;
}

/// domain.md's table of bases; what a picture shows is stated by that picture's source.
Grade strengthOf(const Context& c, const record::Reading& reading, const record::Source* source,
                 const record::Particular& particular) {
    if (source && (c.lineage.goesBackToUs(*source) || source->hadOurData.value_or(false)))
        return Grade::OurCall;
    Grade grade = Grade::OurCall;
    switch (reading.basis) {
        case Basis::Gauged:
            switch (reading.feature.value_or(record::Feature::Uncertain)) {
                case record::Feature::Original:
                    grade = Grade::InHand;
                    break;
                case record::Feature::Uncertain:
                    grade = Grade::TakenOff;
                    break;
                case record::Feature::Altered:
                    grade = Grade::BoxedIn;
                    break;
            }
            if (source && source->kind == record::SourceKind::Rebuild &&
                reading.feature != record::Feature::Original)
                grade = lower(grade, Grade::CarriedOver);
            break;
        case Basis::Figured:
        case Basis::Stated:
        case Basis::Scaled:
        case Basis::Measured:
            grade = source && c.lineage.speaksFromThePeriod(*source) ? Grade::Figured
                                                                     : Grade::CarriedOver;
            break;
        case Basis::Symmetry:
            grade = source ? Grade::TakenOff : Grade::BoxedIn;
            break;
        case Basis::Told:
        case Basis::Limit:
        case Basis::Interpolated:
        case Basis::Inferred:
            grade = Grade::BoxedIn;
            break;
        case Basis::Analogous:
        case Basis::TradeRule:
            grade = Grade::CarriedOver;
            break;
        case Basis::Guessed:
        case Basis::Assumed:
        case Basis::Geometry:
            grade = Grade::OurCall;
            break;
    }
    if (isOfAnotherState(c.index, reading, particular.state))
        grade = lower(grade, Grade::CarriedOver);
    return grade;
}

/// Origins behind some words; those without a source count none.
std::size_t originsOf(const Context& c, const std::vector<const Word*>& words) {
    std::set<int> origins;
    for (const auto* word : words)
        if (word->source) origins.insert(c.lineage.originOf(*word->source));
    return origins.size();
}

bool areTwoWitnesses(const Context& c, const std::vector<const Word*>& words) {
    for (const auto* a : words)
        for (const auto* b : words) {
            if (!a->source || !b->source || a->strength > Grade::Figured ||
                b->strength > Grade::Figured)
                continue;
            if (c.lineage.originOf(*a->source) == c.lineage.originOf(*b->source)) continue;
            const bool hands = a->source->creator && b->source->creator &&
                               foldedText(*a->source->creator) != foldedText(*b->source->creator);
            if (a->source->kind != b->source->kind || hands) return true;
        }
    return false;
}

std::string whyInWords(const Context& c, const std::vector<const Word*>& held, bool agree,
                       bool twoWitnesses, Grade grade) {
    std::vector<std::string> names;
    for (const auto* word : held) {
        std::string name = nameOf(c.index, *word->reading);
        if (std::ranges::find(names, name) == names.end()) names.push_back(std::move(name));
    }
    std::string text = nameOf(grade) + ": " + listText(names, 3);
    if (twoWitnesses) text += ", which are independent of each other and agree";
    if (!agree) text += "; held at T or lower because its sources disagree";
    return text;
}

}  // namespace

std::string foldedText(const std::string& text) {
    std::string folded;
    for (const char ch : text)
        if (std::isspace(static_cast<unsigned char>(ch)) == 0)
            folded += static_cast<char>(std::tolower(static_cast<unsigned char>(ch)));
    return folded;
}

Fact factOf(const Context& c, const record::Particular& particular) {
    Fact fact;
    auto& result = fact.result;
    result.id = particular.id;
    result.code = particular.code.value_or("");
    result.digest = c.digests.ofParticular(particular);
    for (const auto* reading : c.index.readingsOf(particular.id.text)) {
        const auto* source = c.index.sourceOf(*reading);
        if (!reading->value || isSetAside(c, *reading, source)) continue;
        std::string text = asWritten(*reading->value, std::nullopt);
        std::string folded = foldedText(text);
        fact.words.push_back({reading, source, std::move(text), std::move(folded),
                              strengthOf(c, *reading, source, particular)});
    }
    std::ranges::sort(fact.words, [&](const Word& a, const Word& b) {
        const auto key = [&](const Word& w) {
            return std::tuple(w.strength, w.folded, c.digests.ofRecord(w.reading->id.text));
        };
        return key(a) < key(b);
    });
    if (fact.words.empty()) {
        result.gradeWhy = "Blank: nothing known says so.";
        return fact;
    }
    // What the best class says is held to be true; where it is of two minds both are shown.
    const Grade best = fact.words.front().strength;
    std::vector<const Word*> held;
    std::vector<std::string> values;
    std::set<std::string> heldValues;
    for (const auto& word : fact.words) {
        if (word.strength != best) continue;
        held.push_back(&word);
        if (heldValues.insert(word.folded).second) values.push_back(word.text);
    }
    result.agree = std::ranges::all_of(fact.words, [&](const Word& word) {
        return heldValues.size() == 1 && heldValues.contains(word.folded);
    });
    result.value = values.front();
    for (std::size_t i = 1; i < values.size(); ++i) *result.value += " or " + values[i];
    std::vector<const Word*> agreeing;
    for (const auto& word : fact.words)
        if (heldValues.contains(word.folded)) agreeing.push_back(&word);
    result.origins = static_cast<int>(originsOf(c, agreeing));

    const bool witnesses = result.agree && best == Grade::Figured && areTwoWitnesses(c, agreeing);
    result.grade = witnesses ? Grade::InHand : best;
    if (!result.agree) result.grade = lower(result.grade, Grade::TakenOff);
    fact.computed = result.grade;
    result.gradeWhy =
        whyInWords(c, witnesses ? agreeing : held, result.agree, witnesses, result.grade);
    if (const auto* lowered = loweringOf(c.index, particular.id.text);
        lowered && lowered->grade > result.grade) {
        fact.lowered = lowered;
        result.grade = lowered->grade;
        result.gradeWhy += fmt::format(
            "; set from {} to {} by {}: {}", record::nameOf(fact.computed),
            record::nameOf(lowered->grade), nameOf(c.index, lowered->by), lowered->reason);
    }
    if (!result.gradeWhy.ends_with('.')) result.gradeWhy += ".";
    return fact;
}

}  // namespace evidence::judgement
