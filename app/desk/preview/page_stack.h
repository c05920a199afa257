#pragma once

#include <QWidget>

#include <filesystem>

class QLabel;
class QPdfDocument;
class QPdfView;
class QSpinBox;

namespace app::desk::preview {

/// The pages of a PDF below each other, with the number of the page that is looked at.
class PageStack : public QWidget {
    Q_OBJECT

  public:
    explicit PageStack(QWidget* parent = nullptr);
    ~PageStack() override;

    /// Shows this file instead of the former one, at the page that was looked at.
    void showFile(const std::filesystem::path& pdf);
    void clear();

    /// "Page 3 of 40": to be put where the window has room for it. Owned by whoever takes it.
    [[nodiscard]] QWidget* pageNumber() const;

  Q_SIGNALS:
    /// So many pages are there, and the first of them stands on the screen.
    void shown(int count);

  private:
    QPdfDocument* m_document = nullptr;
    QPdfView* m_view = nullptr;
    QSpinBox* m_number = nullptr;
    bool m_fresh = false;  ///< the file is new and none of its pages has been drawn yet
};

}  // namespace app::desk::preview
