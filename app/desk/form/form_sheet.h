#pragma once

#include "app/desk/open_register.h"

#include <QDialog>
#include <QString>

#include <map>
#include <string>
#include <vector>

class QBoxLayout;
class QCheckBox;
class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;
class QTextBrowser;

namespace app::desk::form {

/// The sheet that every form is written on: what is known at the left, the fields at the right,
/// "Keep" and "Leave" at the foot. Not modal; deletes itself when closed.
///
/// "Keep" performs the plan and closes. A refusal stands in red pencil under the field it is about
/// (found by Refusal::place), which gets the focus; nothing is kept then. A field's name is its
/// object name and, unless `alsoAt` adds others, its place.
class FormSheet : public QDialog {
    Q_OBJECT

  public:
    FormSheet(OpenRegister& open, const QString& name, const QString& title, QWidget* parent);

    /// The line under the title: what the form is about.
    void setAbout(const QString& about);
    /// The text at the left; made on first use.
    [[nodiscard]] QTextBrowser* known();
    /// A picture under that text; as tall as it must be.
    void addUnderKnown(QWidget* picture);

    QLineEdit* addLine(const QString& label, const QString& name, const QString& hint = {});
    /// Two short lines on one row, with words between them.
    struct Pair {
        QLineEdit* first = nullptr;
        QLineEdit* second = nullptr;
    };
    Pair addPair(const QString& label, const QString& first, const QString& words,
                 const QString& second);
    QPlainTextEdit* addText(const QString& label, const QString& name, const QString& hint = {});
    QComboBox* addChoice(const QString& label, const QString& name);
    QCheckBox* addCheck(const QString& words, const QString& name);
    /// Any other widget; refusals at its object name stand under it.
    void addField(const QString& label, QWidget* field);
    /// Words in graphite (what is read from the fields, cautions …) across the width.
    QLabel* addNote(const QString& name);

    /// A refusal at `place`, or at a place below it, stands under `field` too.
    void alsoAt(const std::string& place, QWidget* field);
    /// Shows or hides a field with its label.
    void setFieldVisible(QWidget* field, bool visible);

    /// What "Keep" carries out. Called on the user's thread, while the form is open.
    void planWith(OpenRegister::Planner plan) { m_plan = std::move(plan); }

    /// Carries the plan out; closes where it was kept.
    void keep();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    struct Row {
        QLabel* label = nullptr;
        QWidget* field = nullptr;
        QBoxLayout* cell = nullptr;
    };

    void addRow(const QString& label, QWidget* field);
    void showRefusal(const evidence::Refusal& refusal);
    /// Makes room where the fields need more than there is.
    void grow();
    [[nodiscard]] QWidget* fieldAt(const std::string& place) const;
    [[nodiscard]] const Row* rowOf(const QWidget* field) const;

    OpenRegister& m_open;
    OpenRegister::Planner m_plan;
    QLabel* m_about = nullptr;
    QLabel* m_refusal = nullptr;
    QTextBrowser* m_known = nullptr;
    QBoxLayout* m_halves = nullptr;
    QBoxLayout* m_left = nullptr;
    QGridLayout* m_fields = nullptr;
    QBoxLayout* m_upright = nullptr;  ///< the fields, and what is left below them
    QBoxLayout* m_foot = nullptr;
    QPushButton* m_leave = nullptr;
    QPushButton* m_keep = nullptr;
    std::vector<Row> m_rows;
    std::map<std::string, QWidget*> m_places;
};

}  // namespace app::desk::form
