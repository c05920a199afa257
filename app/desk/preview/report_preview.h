#pragma once

#include <QWidget>

#include <memory>

namespace app::desk {
class Analyst;
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::preview {

/// The report before it is handed out: kinds and filters, its pages, and first the findings that a
/// reviewer will ask about, so that they can be answered before sending. Written off the user's
/// thread into a temporary file; "Save" writes PDF or HTML where the user says.
class ReportPreview : public QWidget {
    Q_OBJECT

  public:
    ReportPreview(OpenRegister& open, Analyst& analyst, Selection& selection,
                  QWidget* parent = nullptr);
    ~ReportPreview() override;

  Q_SIGNALS:
    /// The preview shows the report of the register as it is now.
    void ready();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    class Insides;
    std::unique_ptr<Insides> m_insides;
};

}  // namespace app::desk::preview
