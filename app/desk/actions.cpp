#include "app/desk/actions.h"

#include "app/desk/look/look.h"

#include <QActionGroup>
#include <QKeySequence>
#include <QUndoStack>

namespace app::desk {

namespace {

struct Wording {
    QString text;
    QString hint;  ///< one sentence; the key is added
    QString icon;
    QKeySequence key = {};
    QString brief = {};  ///< under the icon of the tool strip, where `text` is too long for it
};

void word(QAction& action, const Wording& wording) {
    action.setText(wording.text);
    action.setIcon(look::icon(wording.icon));
    action.setShortcut(wording.key);
    if (!wording.brief.isEmpty()) action.setIconText(wording.brief);
    const QString key = wording.key.toString(QKeySequence::NativeText);
    const QString hint =
        key.isEmpty() ? wording.hint : Actions::tr("%1 (%2)").arg(wording.hint, key);
    action.setToolTip(hint);
    action.setStatusTip(wording.hint);
}

}  // namespace

Actions::Actions(QUndoStack& stack, QObject* parent) : QObject(parent) {
    const auto make = [this](const Wording& wording, const char* name) {
        auto* action = new QAction(this);
        word(*action, wording);
        action->setObjectName(QString::fromLatin1(name));
        return action;
    };
    const auto makeSwitch = [&](const Wording& wording, const char* name) {
        auto* action = make(wording, name);
        action->setCheckable(true);
        return action;
    };

    openRegister = make({tr("Open a register …"), tr("Open another register in this window."),
                         QStringLiteral("portfolio"), QKeySequence::Open},
                        "openRegister");
    takeIn = make({tr("Take files in …"),
                   tr("Copy scans and photographs in as sources; the files are never altered."),
                   QStringLiteral("take-in"), QKeySequence(Qt::CTRL | Qt::Key_I)},
                  "takeIn");
    report = make({tr("Report"), tr("Look the report through and save it for reviewers."),
                   QStringLiteral("report"), QKeySequence::Print},
                  "report");
    quit = make({tr("Leave"), tr("Leave the desk; everything is kept already."),
                 QStringLiteral("look"), QKeySequence::Quit},
                "quit");

    undo = stack.createUndoAction(this, tr("Undo"));
    undo->setObjectName(QStringLiteral("undo"));
    undo->setIcon(look::icon(QStringLiteral("undo")));
    undo->setShortcut(QKeySequence::Undo);
    redo = stack.createRedoAction(this, tr("Redo"));
    redo->setObjectName(QStringLiteral("redo"));
    redo->setIcon(look::icon(QStringLiteral("redo")));
    redo->setShortcuts({QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), QKeySequence::Redo});

    look = makeSwitch({tr("Look"), tr("Move the picture; a click chooses a mark."),
                       QStringLiteral("look"), QKeySequence(Qt::Key_V)},
                      "look");
    scale =
        makeSwitch({tr("Scale"), tr("Drag along a thing of known length and say how long it is."),
                    QStringLiteral("scale"), QKeySequence(Qt::Key_S)},
                   "scale");
    measure = makeSwitch({tr("Measure"), tr("Drag along the wanted thing and name it."),
                          QStringLiteral("measure"), QKeySequence(Qt::Key_M)},
                         "measure");
    circle = makeSwitch({tr("Circle"), tr("Click three places on a rim and name its diameter."),
                         QStringLiteral("circle"), QKeySequence(Qt::Key_C)},
                        "circle");
    auto* tools = new QActionGroup(this);
    for (auto* tool : {look, scale, measure, circle}) tools->addAction(tool);
    look->setChecked(true);
    printedScale =
        make({tr("Scale by print …"), tr("Give the scan's resolution and the drawn scale."),
              QStringLiteral("print-scale"), QKeySequence(Qt::SHIFT | Qt::Key_S)},
             "printedScale");

    dimension = make({tr("New dimension …"), tr("Put a dimension into the ledger."),
                      QStringLiteral("dimension"), QKeySequence(Qt::Key_N), tr("Dimension")},
                     "dimension");
    guess = make({tr("Guess …"), tr("Say between what and what, and why."), QStringLiteral("guess"),
                  QKeySequence(Qt::Key_G), tr("Guess")},
                 "guess");
    rule = make({tr("Rule …"), tr("Adopt a build value, with the reason."), QStringLiteral("rule"),
                 QKeySequence(Qt::Key_R), tr("Rule")},
                "rule");
    reading = make({tr("Add a reading …"), tr("Record a figured, stated, gauged or told size."),
                    QStringLiteral("reading"), QKeySequence(Qt::Key_A), tr("Reading")},
                   "reading");
    mass = make({tr("Mass from volume …"),
                 tr("Work a mass out from its volume and what the part is made of."),
                 QStringLiteral("reading")},
                "mass");
    tableRow = make({tr("New table row …"),
                     tr("Add a known thing or a material to the tables, with its source."),
                     QStringLiteral("dimension")},
                    "tableRow");
    setAside = make({tr("Set aside …"), tr("Take what is chosen out of use, with the reason."),
                     QStringLiteral("set-aside"), QKeySequence(Qt::SHIFT | Qt::Key_X)},
                    "setAside");
    find = make({tr("Find in the ledger"), tr("Narrow the ledger by words, codes or grades."),
                 QStringLiteral("filter"), QKeySequence::Find},
                "find");

    portfolio = makeSwitch({tr("Portfolio"), tr("Show the sources."), QStringLiteral("portfolio"),
                            QKeySequence(Qt::Key_P)},
                           "portfolio");
    glass = makeSwitch({tr("Glass"), tr("Hold a magnifying glass at the pointer."),
                        QStringLiteral("glass"), QKeySequence(Qt::Key_Z)},
                       "glass");
    whole = make({tr("Whole page"), tr("Show the whole page."), QStringLiteral("whole"),
                  QKeySequence(Qt::Key_0)},
                 "whole");
    nearer = make({tr("Nearer"), tr("Show the page larger."), QStringLiteral("nearer"),
                   QKeySequence(Qt::Key_Plus)},
                  "nearer");
    farther = make({tr("Farther"), tr("Show the page smaller."), QStringLiteral("farther"),
                    QKeySequence(Qt::Key_Minus)},
                   "farther");
    toMark = make({tr("To the mark"), tr("Bring the chosen mark into view."), QStringLiteral("pin"),
                   QKeySequence(Qt::Key_F)},
                  "toMark");
    lamp = makeSwitch({tr("Lamp light"), tr("Dark surroundings, for the evening."),
                       QStringLiteral("lamp"), QKeySequence(Qt::CTRL | Qt::Key_L)},
                      "lamp");
    allow({});
}

void Actions::allow(const Possible& possible) {
    for (auto* onPage : {look, scale, measure, circle, printedScale, glass, whole, nearer, farther})
        onPage->setEnabled(possible.page);
    toMark->setEnabled(possible.page);
    guess->setEnabled(possible.size && possible.judged);
    rule->setEnabled(possible.size && possible.judged);
    reading->setEnabled(possible.size && possible.judged);
    mass->setEnabled(possible.mass);
    setAside->setEnabled(possible.aside);
    report->setEnabled(possible.judged);
}

}  // namespace app::desk
