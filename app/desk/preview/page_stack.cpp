#include "app/desk/preview/page_stack.h"

#include "app/desk/look/look.h"

#include <QPdfDocument>
#include <QPdfPageNavigator>
#include <QPdfPageRenderer>
#include <QPdfView>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>

namespace app::desk::preview {

PageStack::PageStack(QWidget* parent) : QWidget(parent) {
    m_document = new QPdfDocument(this);
    m_view = new QPdfView;
    m_view->setObjectName(QStringLiteral("previewPages"));
    m_view->setPageMode(QPdfView::PageMode::MultiPage);
    m_view->setZoomMode(QPdfView::ZoomMode::FitToWidth);
    m_view->setDocument(m_document);
    m_number = new QSpinBox;
    m_number->setObjectName(QStringLiteral("pageNumber"));
    m_number->setPrefix(tr("Page "));
    m_number->setEnabled(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_view);

    auto* navigator = m_view->pageNavigator();
    connect(navigator, &QPdfPageNavigator::currentPageChanged, m_number, [this](int page) {
        const QSignalBlocker quiet(m_number);
        m_number->setValue(page + 1);
    });
    connect(m_number, &QSpinBox::valueChanged, navigator,
            [navigator](int page) { navigator->jump(page - 1, {}, navigator->currentZoom()); });
    // The view draws its pages on another thread and does not say when one is there.
    const auto* renderer = m_view->findChild<QPdfPageRenderer*>();
    Q_ASSERT(renderer);
    connect(renderer, &QPdfPageRenderer::pageRendered, this, [this] {
        if (!std::exchange(m_fresh, false)) return;
        Q_EMIT shown(m_document->pageCount());
    });
}

PageStack::~PageStack() {
    m_view->setDocument(nullptr);
}

QWidget* PageStack::pageNumber() const {
    return m_number;
}

void PageStack::showFile(const std::filesystem::path& pdf) {
    const int page = m_view->pageNavigator()->currentPage();
    m_document->load(QString::fromStdString(pdf.string()));
    const int count = m_document->pageCount();
    m_fresh = true;
    {
        const QSignalBlocker quiet(m_number);
        m_number->setRange(1, std::max(1, count));
        m_number->setSuffix(tr(" of %1").arg(count));
        m_number->setEnabled(count > 0);
    }
    m_view->pageNavigator()->jump(std::clamp(page, 0, std::max(0, count - 1)), {}, 0);
    m_view->viewport()->update();
}

void PageStack::clear() {
    m_document->close();
    m_fresh = false;
    m_number->setEnabled(false);
    m_number->setSuffix({});
}

}  // namespace app::desk::preview
