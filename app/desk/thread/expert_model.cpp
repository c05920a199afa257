#include "app/desk/thread/expert_model.h"

#include "app/report/document.h"
#include "app/report/register_index.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>

namespace app::desk::thread {

using evidence::judgement::ReadingResult;
using report::rounded;

namespace {

const QString& dash() {
    static const QString kDash = QStringLiteral("–");
    return kDash;
}

QString nameOf(const report::RegisterIndex& index, const std::string& id) {
    const auto* reading = index.reading(id);
    if (reading == nullptr) return index.code(id);
    QString name = index.code(id) + u' ' + report::basisWords(reading->basis);
    if (const auto* source = index.sourceOfReading(*reading))
        name += QStringLiteral(", ") + report::shown(source->title);
    return name;
}

}  // namespace

void ExpertModel::show(std::shared_ptr<const Judged> judged,
                       const evidence::record::AnyId& dimension) {
    beginResetModel();
    m_judged = std::move(judged);
    m_result = nullptr;
    m_names.clear();
    m_unit.clear();
    if (m_judged) {
        const report::RegisterIndex index(m_judged->snapshot->reg, m_judged->analysis);
        m_result = index.result(dimension.text);
        if (const auto* known = index.dimension(dimension.text))
            m_unit = report::unitSign(evidence::record::unitOf(*known));
        if (m_result)
            for (const auto& reading : m_result->readings)
                m_names << nameOf(index, reading.id.text);
    }
    endResetModel();
}

evidence::record::AnyId ExpertModel::readingAt(int row) const {
    if (!m_result || row < 0 || row >= rowCount({})) return {};
    return evidence::record::any(m_result->readings[static_cast<std::size_t>(row)].id);
}

QString ExpertModel::fitWords() const {
    if (!m_result) return {};
    const auto& parts = m_judged->analysis.parts;
    const auto part = std::ranges::find_if(parts, [&](const auto& p) {
        return std::ranges::find(p.dimensions, m_result->id) != p.dimensions.end();
    });
    if (part == parts.end() || !part->p)
        return tr("Fit of the whole: nothing checks this part of the evidence.");
    return tr("Fit of the whole, over the %1 dimensions that hang together with it: %2 (χ² %3 with "
              "%4 degrees of freedom).")
        .arg(QString::number(part->dimensions.size()), report::percent(*part->p),
             rounded(part->chi2, 3), rounded(part->redundancy, 3));
}

int ExpertModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !m_result ? 0 : static_cast<int>(m_result->readings.size());
}

int ExpertModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QString ExpertModel::cell(const ReadingResult& reading, int column) const {
    const double spread = reading.u.value_or(0);
    const auto figure = [&](const std::optional<double>& x) {
        return x ? report::figureFor(*x, spread) : dash();
    };
    const auto two = [](const std::optional<double>& x) { return x ? rounded(*x, 2) : dash(); };
    const auto share = [](const std::optional<double>& x) {
        return x ? report::percent(*x) : dash();
    };
    switch (column) {
        case Value:
            return figure(reading.value);
        case U:
            return two(reading.u);
        case Residual:
            return figure(reading.residual);
        case Misfit:
            return two(reading.w);
        case Checked:
            return share(reading.redundancy);
        case SmallestMistake:
            return two(reading.mde);
        case Pull:
            return two(reading.pull);
        case Share:
            return share(reading.varianceShare);
        default:
            return {};
    }
}

QVariant ExpertModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const auto& reading = m_result->readings[static_cast<std::size_t>(index.row())];
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue<Qt::Alignment>(
            (index.column() == Reading ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    if (role == Qt::DisplayRole)
        return index.column() == Reading ? m_names[index.row()] : cell(reading, index.column());
    if (role == Qt::ToolTipRole && index.column() == Reading)
        return reading.echoOf
                   ? tr("%1. An echo: shown, not counted twice.").arg(m_names[index.row()])
                   : m_names[index.row()];
    return {};
}

QVariant ExpertModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    const auto withUnit = [&](const QString& words) {
        return m_unit.isEmpty() ? words : words + QStringLiteral(", ") + m_unit;
    };
    if (role == Qt::TextAlignmentRole && section == Reading)
        return QVariant::fromValue<Qt::Alignment>(Qt::AlignLeft | Qt::AlignBottom);
    const bool words = role == Qt::DisplayRole;
    if (!words && role != Qt::ToolTipRole) return {};
    switch (section) {
        case Reading:
            return words ? tr("Reading") : tr("One piece of evidence.");
        case Value:
            return words ? withUnit(tr("value")) : tr("As it counts, corrections made.");
        case U:
            return words ? withUnit(tr("u")) : tr("Standard uncertainty, u.");
        case Residual:
            return words ? withUnit(tr("misfit")) : tr("Residual v: observed less adjusted.");
        case Misfit:
            return words ? tr("misfit, in its own spreads") : tr("Normalised residual, w.");
        case Checked:
            return words ? tr("how well others check it") : tr("Redundancy number, r.");
        case SmallestMistake:
            return words ? withUnit(tr("the smallest mistake this would show"))
                         : tr("Minimal detectable error, with α₀ = 0.001 and power 0.80.");
        case Pull:
            return words ? tr("how far the result follows it") : tr("Pull, ∂value/∂reading.");
        case Share:
            return words ? tr("share of the doubt") : tr("Share of the variance.");
        default:
            return {};
    }
}

}  // namespace app::desk::thread
