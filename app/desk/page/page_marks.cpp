#include "app/desk/page/page_marks.h"

#include "app/desk/page/dimension_words.h"
#include "app/report/mark_drawing.h"
#include "app/session/shown.h"
#include "evidence-core/record/lookup.h"

#include <QStringList>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace app::desk::page {

namespace record = evidence::record;

using evidence::quantity::Typesetting;

namespace {

QString text(const std::string& words) {
    return QString::fromStdString(words);
}

/// Sizes and records by id, for one pass over the register.
class Names {
  public:
    Names(const record::Register& reg, const Judged* judged) : m_reg(reg) {
        for (const auto& dimension : reg.dimensions) m_dimensions[dimension.id.text] = &dimension;
        if (judged == nullptr) return;
        for (const auto& result : judged->analysis.dimensions) m_results[result.id.text] = &result;
    }

    /// "D12", or its name where it has no code.
    [[nodiscard]] QString code(const record::AnyId& id) const {
        if (const auto* dimension = dimensionOf(id))
            return text(dimension->code.value_or(dimension->name));
        const auto* particular = record::find(m_reg, record::ParticularId{id.text});
        return particular ? text(particular->code.value_or(particular->name)) : QString();
    }

    /// "D12 Hoop width, 4'-7 5/16" ± 0.12 in".
    [[nodiscard]] QString inFull(const record::AnyId& id) const {
        const auto* dimension = dimensionOf(id);
        if (!dimension) {
            const auto* particular = record::find(m_reg, record::ParticularId{id.text});
            return particular ? joined(code(id), text(particular->name)) : QString();
        }
        const QString name = joined(code(id), text(dimension->name));
        const QString size = sizeOf(*dimension);
        return size.isEmpty() ? name : name + QStringLiteral(", ") + size;
    }

    [[nodiscard]] QString known(const record::KnownLength& length) const {
        if (length.dimension) {
            const auto* dimension = dimensionOf(record::any(*length.dimension));
            return dimension ? joined(code(record::any(*length.dimension)), sizeOf(*dimension))
                             : QString();
        }
        return length.value ? wordsOf(*length.value, length.unit) : QString();
    }

  private:
    static QString joined(const QString& first, const QString& second) {
        if (first.isEmpty() || first == second || second.isEmpty())
            return first.isEmpty() ? second : first;
        return first + QLatin1Char(' ') + second;
    }

    [[nodiscard]] const record::Dimension* dimensionOf(const record::AnyId& id) const {
        const auto found = m_dimensions.find(id.text);
        return found == m_dimensions.end() ? nullptr : found->second;
    }

    [[nodiscard]] QString sizeOf(const record::Dimension& dimension) const {
        const auto found = m_results.find(dimension.id.text);
        if (found == m_results.end() || !found->second->value) return {};
        return text(
            session::shown(*found->second, dimension, m_reg.archive, Typesetting::Typographic)
                .text());
    }

    const record::Register& m_reg;
    std::unordered_map<std::string, const record::Dimension*> m_dimensions;
    std::unordered_map<std::string, const evidence::judgement::DimensionResult*> m_results;
};

/// What is said of each mark, by its id.
struct Said {
    MarkUse use = MarkUse::Loose;
    QStringList labels;
    QStringList words;
};

void say(Said& said, MarkUse use, const QString& label, const QString& words) {
    if (said.use == MarkUse::Loose || use == MarkUse::Reference) said.use = use;
    if (!label.isEmpty() && !said.labels.contains(label)) said.labels << label;
    if (!words.isEmpty() && !said.words.contains(words)) said.words << words;
}

std::unordered_map<std::string, Said> allSaid(const record::Register& reg, const Names& names) {
    std::unordered_map<std::string, Said> said;
    for (const auto& frame : reg.frames) {
        if (frame.setAside) continue;
        for (const auto& reference : frame.references) {
            if (reference.setAside) continue;
            const QString length = names.known(reference.length);
            say(said[reference.mark.text], MarkUse::Reference, length,
                QObject::tr("known length: %1").arg(length));
        }
        for (const auto& point : frame.points)
            say(said[point.mark.text], MarkUse::Reference, {}, QObject::tr("known point"));
    }
    for (const auto& reading : reg.readings) {
        if (reading.setAside) continue;
        const auto measured = [&](const record::MarkId& mark) {
            say(said[mark.text], MarkUse::Measured, names.code(reading.of),
                names.inFull(reading.of));
        };
        if (reading.mark) measured(*reading.mark);
        if (reading.between)
            for (const auto& mark : *reading.between) measured(mark);
    }
    return said;
}

}  // namespace

const PageMark* PageMarks::find(const record::MarkId& id) const {
    const auto found = std::ranges::find_if(
        marks, [&](const PageMark& candidate) { return candidate.mark->id == id; });
    return found == marks.end() ? nullptr : &*found;
}

PageMarks marksOf(const std::shared_ptr<const session::Snapshot>& snapshot, const Judged* judged,
                  const session::PageOfFile& page, const record::MarkId& alsoThis) {
    PageMarks found{snapshot, {}};
    const Names names(snapshot->reg, judged);
    const auto said = allSaid(snapshot->reg, names);
    for (const auto& mark : snapshot->reg.marks) {
        if (mark.file != page.file || mark.page.value_or(1) != page.page) continue;
        if (mark.setAside && mark.id != alsoThis) continue;
        PageMark made{&mark, MarkUse::Loose, {}, {}};
        if (const auto it = said.find(mark.id.text); it != said.end()) {
            made.use = it->second.use;
            made.label = it->second.labels.join(QStringLiteral(", "));
            made.words = it->second.words.join(QLatin1Char('\n'));
        }
        found.marks.push_back(std::move(made));
    }
    return found;
}

QPainterPath pathInView(const record::Mark& mark, const PageViewport& viewport) {
    return report::markPath(
        mark, [&](const record::PixelPoint& at) { return viewport.toView(QPointF(at.x, at.y)); },
        viewport.zoom());
}

std::optional<double> distanceTo(const QPainterPath& path, const QPointF& at) {
    std::optional<double> nearest;
    for (const QPolygonF& line : path.toSubpathPolygons())
        for (qsizetype i = 0; i + 1 < line.size(); ++i) {
            const QPointF along = line[i + 1] - line[i];
            const double square = QPointF::dotProduct(along, along);
            const double t =
                square > 0 ? std::clamp(QPointF::dotProduct(at - line[i], along) / square, 0.0, 1.0)
                           : 0;
            const QPointF foot = line[i] + t * along - at;
            const double distance = std::hypot(foot.x(), foot.y());
            if (!nearest || distance < *nearest) nearest = distance;
        }
    return nearest;
}

const PageMark* markAt(std::span<const PageMark> marks, const PageViewport& viewport,
                       const QPointF& at, double reach) {
    const PageMark* best = nullptr;
    double bestDistance = 0;
    double bestLength = 0;
    constexpr double kEqual = 1;  // view px: a hand does not aim closer
    for (const PageMark& candidate : marks) {
        const QPainterPath path = pathInView(*candidate.mark, viewport);
        const auto distance = distanceTo(path, at);
        if (!distance || *distance > reach) continue;
        const double length = path.length();
        const bool nearer = *distance < bestDistance - kEqual;
        const bool shorter = *distance < bestDistance + kEqual && length < bestLength;
        if (best != nullptr && !nearer && !shorter) continue;
        best = &candidate;
        bestDistance = *distance;
        bestLength = length;
    }
    return best;
}

}  // namespace app::desk::page
