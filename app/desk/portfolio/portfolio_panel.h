#pragma once

#include <QWidget>

#include <memory>

namespace app::desk {
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::portfolio {

/// The portfolio: sources as cards (thumbnail, title, holder, call number, rights), grouped by
/// origin; letters that wait for an answer lie on top. A click chooses a source and its first page;
/// files dropped on it are taken in.
class PortfolioPanel : public QWidget {
    Q_OBJECT

  public:
    PortfolioPanel(OpenRegister& open, Selection& selection, QWidget* parent = nullptr);
    ~PortfolioPanel() override;

  Q_SIGNALS:
    void said(const QString& sentence);

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    class Insides;
    std::unique_ptr<Insides> m_insides;
};

}  // namespace app::desk::portfolio
