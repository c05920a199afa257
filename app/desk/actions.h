#pragma once

#include <QAction>
#include <QObject>

#include <vector>

class QUndoStack;

namespace app::desk {

/// All that can be asked of the desk: text, key, icon and when it can be done. Menus, the tool
/// strip and context menus share them. Owned by this object; connected by the window.
class Actions : public QObject {
    Q_OBJECT

  public:
    explicit Actions(QUndoStack& undo, QObject* parent = nullptr);

    QAction* openRegister;
    QAction* takeIn;
    QAction* report;
    QAction* quit;

    QAction* undo;
    QAction* redo;

    QAction* look;  ///< the tools exclude each other
    QAction* scale;
    QAction* measure;
    QAction* circle;
    QAction* printedScale;

    QAction* dimension;
    QAction* guess;
    QAction* rule;
    QAction* reading;
    QAction* mass;
    QAction* tableRow;
    QAction* setAside;
    QAction* find;

    QAction* portfolio;
    QAction* glass;
    QAction* whole;
    QAction* nearer;
    QAction* farther;
    QAction* toMark;
    QAction* lamp;

    /// What can be done with what is chosen.
    struct Possible {
        bool size = false;       ///< a dimension or particular is chosen
        bool dimension = false;  ///< it is a dimension
        bool mass = false;       ///< it is a mass
        bool page = false;       ///< a page lies open
        bool aside = false;      ///< what is chosen can be set aside
        bool judged = false;     ///< the analysis has answered
    };
    void allow(const Possible& possible);
};

}  // namespace app::desk
