#include "evidence-core/judgement/grade.h"

#include "evidence-core/judgement/grade_words.h"
#include "evidence-core/judgement/particular.h"
#include "evidence-core/judgement/wording.h"

#include <algorithm>
#include <cmath>

namespace evidence::judgement {

namespace {

using record::Grade;

/// The reading with its corrections and its off-plane term is of class F or better.
bool isStrongWitness(const Context& c, const network::ReadingSolution& reading) {
    if (reading.use != network::ReadingUse::Used || !reading.leaf || !reading.value || !reading.u)
        return false;
    return std::ranges::all_of(c.solution.leaves, [&](const network::Leaf& leaf) {
        const bool belongs =
            leaf.id == reading.id.text || leaf.id.starts_with(reading.id.text + "/");
        return !belongs || !leaf.strength || *leaf.strength <= Grade::Figured;
    });
}

bool differInKindOrHand(const record::Source& a, const record::Source& b) {
    if (a.kind != b.kind) return true;
    return a.creator && b.creator && !foldedText(*a.creator).empty() &&
           !foldedText(*b.creator).empty() && foldedText(*a.creator) != foldedText(*b.creator);
}

Grade oneDown(Grade grade) {
    if (grade >= Grade::CarriedOver) return grade;
    return static_cast<Grade>(static_cast<int>(grade) + 1);
}

/// Rule 4: what guesses and borrowed values carry of the variance caps the grade.
Grade shareCap(const Context& c, const network::DimensionSolution& d) {
    const double share = d.borrowedShare;
    const auto& t = c.thresholds;
    if (share > t.shareOurs) return d.guessShare >= share / 2 ? Grade::OurCall : Grade::CarriedOver;
    if (share > t.shareNotAboveB) return Grade::BoxedIn;
    if (share > t.shareNotAboveT) return Grade::TakenOff;
    if (share > t.shareNotAboveF) return Grade::Figured;
    return Grade::InHand;
}

}  // namespace

std::string nameOf(Grade grade) {
    switch (grade) {
        case Grade::InHand:
            return "In hand";
        case Grade::Figured:
            return "Figured";
        case Grade::TakenOff:
            return "Taken off";
        case Grade::BoxedIn:
            return "Boxed in";
        case Grade::CarriedOver:
            return "Carried over";
        case Grade::OurCall:
            return "Our call";
        case Grade::Blank:
            return "Blank";
    }
    return "Blank";
}

Grade lower(Grade a, Grade b) {
    return std::max(a, b);
}

const record::Lowered* loweringOf(const Index& index, const std::string& on) {
    const record::Lowered* last = nullptr;
    for (const auto& lowered : index.reg().lowered)
        if (lowered.on.text == on && !foldedText(lowered.reason).empty() &&
            (!last || lowered.at > last->at ||
             (lowered.at == last->at && lowered.grade > last->grade)))
            last = &lowered;
    return last;
}

std::optional<WitnessPair> twoWitnesses(const Context& c, std::size_t i) {
    const auto& d = c.solution.dimensions[i];
    const auto wanted = c.record(d).state;
    std::vector<std::size_t> strong;
    for (const auto at : d.readings) {
        const auto& reading = c.solution.readings[at];
        const auto* entered = c.index.reading(reading.id.text);
        if (isStrongWitness(c, reading) && c.index.sourceOf(*entered) &&
            !isOfAnotherState(c.index, *entered, wanted))
            strong.push_back(at);
    }
    std::optional<WitnessPair> best;
    for (std::size_t a = 0; a < strong.size(); ++a)
        for (std::size_t b = a + 1; b < strong.size(); ++b) {
            const auto& first = c.solution.readings[strong[a]];
            const auto& second = c.solution.readings[strong[b]];
            const auto& sourceA = *c.index.sourceOf(*c.index.reading(first.id.text));
            const auto& sourceB = *c.index.sourceOf(*c.index.reading(second.id.text));
            if (c.lineage.originOf(sourceA) == c.lineage.originOf(sourceB)) continue;
            if (!differInKindOrHand(sourceA, sourceB)) continue;
            const double expanded = 2 * std::hypot(*first.u, *second.u);
            const double difference = std::abs(*first.value - *second.value);
            const double en = expanded > 0 ? difference / expanded : (difference > 0 ? 2.0 : 0.0);
            if (en <= 1 && (!best || en < best->en)) best = {strong[a], strong[b], en};
        }
    return best;
}

Graded gradeOf(const Context& c, std::size_t i) {
    const auto& d = c.solution.dimensions[i];
    Graded g;
    const auto take = [&](Grade cap, GradeCap why) {
        if (cap <= g.grade) return;
        g.grade = cap;
        g.cap = why;
    };
    if (d.estimable && d.value && d.ceiling) {
        const bool disputed = !c.conflictsOf[i].empty();
        g.grade = *d.ceiling;
        const auto pair = disputed ? std::nullopt : twoWitnesses(c, i);
        if (g.grade == Grade::Figured && pair) {
            g.grade = Grade::InHand;
            g.twoWitnesses = true;
        }
        take(shareCap(c, d), GradeCap::Share);
        if (d.steps > c.thresholds.longChainSteps) take(oneDown(g.grade), GradeCap::Length);
        if (disputed) take(Grade::TakenOff, GradeCap::Conflict);
    }
    g.computed = g.grade;
    if (const auto* lowered = loweringOf(c.index, d.id.text); lowered && lowered->grade > g.grade) {
        g.grade = lowered->grade;
        g.cap = GradeCap::Lowered;
        g.lowered = lowered;
    }
    g.why = whyInWords(c, i, g);
    g.raiseBy = raiseInWords(c, i, g);
    return g;
}

}  // namespace evidence::judgement
