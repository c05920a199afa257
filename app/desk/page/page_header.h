#pragma once

#include "app/session/chosen.h"

#include <QWidget>

class QLabel;
class QToolButton;

namespace app::desk::page {

/// The line above the picture: what lies open, which page of how many, and its scale.
class PageHeader : public QWidget {
    Q_OBJECT

  public:
    explicit PageHeader(QWidget* parent = nullptr);

    /// `source` may be null: nothing lies open.
    void show(const evidence::record::Source* source, const session::PageOfFile& page);
    void setScale(const QString& words);
    /// Whether parts of the page could not be decoded.
    void setDamaged(bool damaged);

  Q_SIGNALS:
    void pageWanted(const app::session::PageOfFile& page);

  private:
    void turn(int by);

    QLabel* m_title;
    QLabel* m_damage;
    QLabel* m_scale;
    QWidget* m_turning;
    QToolButton* m_previous;
    QLabel* m_count;
    QToolButton* m_next;
    std::vector<session::PageOfFile> m_pages;
    int m_place = -1;
};

}  // namespace app::desk::page
