#include "app/desk/look/look.h"

#include <QApplication>
#include <QFontInfo>

namespace app::desk::look {

namespace {

Colours coloursFrom(const char* paper, const char* panel, const char* ink, const char* graphite,
                    const char* hairline, const char* blue, const char* red) {
    Colours c{QColor(paper),    QColor(panel), QColor(ink), QColor(graphite),
              QColor(hairline), QColor(blue),  QColor(red), {}};
    c.chosen = report::figure::blended(c.paper, c.bluePencil, 0.16);
    return c;
}

}  // namespace

const Colours& coloursOf(Theme theme) {
    static const Colours paper =
        coloursFrom("#FAF8F2", "#F1EDE3", "#1C2B39", "#6B7280", "#D8D2C4", "#2F5D8C", "#B3402E");
    static const Colours lamp =
        coloursFrom("#1E252C", "#262F38", "#E8E4D9", "#9BA5AF", "#3A4550", "#7FB2E5", "#E8836B");
    switch (theme) {
        case Theme::Paper:
            return paper;
        case Theme::Lamp:
            return lamp;
    }
    return paper;
}

const Colours& colours() {
    return coloursOf(theme());
}

report::figure::FigureStyle figureStyle() {
    const Colours& c = colours();
    const QFont font = figures(Size::Small);
    return {{c.paper, c.ink, c.graphite, c.hairline, c.bluePencil, c.redPencil},
            font.family(),
            static_cast<double>(QFontInfo(font).pixelSize())};
}

}  // namespace app::desk::look
