#pragma once

#include "app/desk/form/forms.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/support/register_builder.h"

#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPointer>
#include <QPushButton>
#include <QTextBrowser>
#include <gtest/gtest.h>

/// A form that a test fills in by the names of its fields.
namespace tests::app {

class FilledForm {
  public:
    /// Shows the form, as its caller would.
    explicit FilledForm(QDialog* dialog) : m_dialog(dialog) { m_dialog->show(); }
    ~FilledForm() { delete m_dialog; }

    FilledForm(const FilledForm&) = delete;
    FilledForm& operator=(const FilledForm&) = delete;

    template <class Field>
    [[nodiscard]] Field* field(const char* name) const {
        auto* found = m_dialog->findChild<Field*>(QLatin1String(name));
        EXPECT_NE(found, nullptr) << "no field " << name;
        return found;
    }

    FilledForm& write(const char* name, const char* text) {
        auto* widget = m_dialog->findChild<QWidget*>(QLatin1String(name));
        const auto words = QString::fromUtf8(text);
        if (auto* line = qobject_cast<QLineEdit*>(widget))
            line->setText(words);
        else if (auto* many = qobject_cast<QPlainTextEdit*>(widget))
            many->setPlainText(words);
        else if (auto* choice = qobject_cast<QComboBox*>(widget))
            choice->setCurrentText(words);
        else
            ADD_FAILURE() << "no field " << name;
        return *this;
    }
    FilledForm& press(const char* name) {
        if (auto* button = field<QPushButton>(name)) button->click();
        return *this;
    }

    /// Closed forms delete themselves once the event loop runs.
    [[nodiscard]] bool isOpen() const { return m_dialog && m_dialog->isVisible(); }
    /// The red sentence; empty where none is shown.
    [[nodiscard]] QString refusal() const {
        const auto* label = field<QLabel>("refusal");
        return label->isVisible() ? label->text() : QString();
    }
    [[nodiscard]] bool isShown(const char* name) const {
        const auto* widget = m_dialog->findChild<QWidget*>(QLatin1String(name));
        return widget && widget->isVisible();
    }
    [[nodiscard]] bool hasFocus(const char* name) const {
        const auto* widget = m_dialog->findChild<QWidget*>(QLatin1String(name));
        return widget && m_dialog->focusWidget() == widget;
    }
    [[nodiscard]] QString known() const { return field<QTextBrowser>("known")->toPlainText(); }

  private:
    QPointer<QDialog> m_dialog;
};

}  // namespace tests::app
