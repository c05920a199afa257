#include "app/desk/form/side_text.h"

#include "app/desk/look/look.h"
#include "app/report/document.h"
#include "app/report/wording.h"

namespace app::desk::form {

namespace {

QString escaped(const QString& words) {
    QString html = words.toHtmlEscaped();
    return html.replace(u'\n', QStringLiteral("<br>"));
}

QString escaped(const std::string& words) {
    return escaped(report::shown(words));
}

QString inPencil(const QColor& colour, const QString& html) {
    return QStringLiteral("<span style=\"color:%1\">%2</span>").arg(colour.name(), html);
}

QString paragraph(const QString& html, int above) {
    return QStringLiteral("<p style=\"margin:%1px 0 0 0\">%2</p>").arg(above).arg(html);
}

QString signOf(evidence::record::Grade grade) {
    return report::gradeSign(grade);
}

}  // namespace

void SideText::heading(const QString& words) {
    m_html += paragraph(
        QStringLiteral("<b>%1</b>").arg(inPencil(look::colours().graphite, escaped(words))),
        m_html.isEmpty() ? 0 : 3 * look::kGrid);
}

void SideText::line(const QString& words) {
    m_html += paragraph(escaped(words), look::kGrid);
}

void SideText::line(const std::string& words, const QString& faint) {
    QString html = escaped(words);
    if (!faint.isEmpty())
        html += QStringLiteral("<br>") + inPencil(look::colours().graphite, escaped(faint));
    m_html += paragraph(html, look::kGrid);
}

void SideText::faint(const QString& words) {
    m_html += paragraph(inPencil(look::colours().graphite, escaped(words)), look::kGrid);
}

void SideText::red(const QString& words) {
    m_html += paragraph(inPencil(look::colours().redPencil, escaped(words)), look::kGrid);
}

void SideText::size(const std::string& size, evidence::record::Grade grade) {
    m_html += paragraph(QStringLiteral("<span style=\"font-size:%1pt\">%2</span>&nbsp;&nbsp; %3")
                            .arg(look::type(look::Size::Heading).pointSizeF())
                            .arg(escaped(size), escaped(signOf(grade))),
                        look::kGrid);
}

void SideText::sizes(const std::vector<session::KnownSize>& sizes) {
    m_html += QStringLiteral("<table cellspacing=\"0\" cellpadding=\"2\" width=\"100%\">");
    for (const auto& known : sizes)
        m_html += QStringLiteral(
                      "<tr><td>%1</td><td align=\"right\" style=\"white-space:pre\">%2</td><td "
                      "style=\"white-space:pre\"> %3</td></tr>")
                      .arg(escaped(known.name), escaped(known.size), escaped(signOf(known.grade)));
    m_html += QStringLiteral("</table>");
}

}  // namespace app::desk::form
