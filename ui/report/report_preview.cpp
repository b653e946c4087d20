// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/report_preview.h"

#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double edge = 14;  // round the pages, pixels
constexpr double largest_zoom = 1.3;

}  // namespace

ReportPreview::ReportPreview(QWidget* parent) : DrawnWidget(parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    tell();
}

void ReportPreview::setPages(std::shared_ptr<const ReportPages> pages) {
    pages_ = std::move(pages);
    painted_.clear();
    tell();
    updateGeometry();
    update();
}

QRectF ReportPreview::placeOf(int page, double width) const {
    if (!pages_) return {};
    const QSizeF paper = pages_->size();
    const double zoom = std::min(largest_zoom, std::max(1.0, width - 2 * edge) / paper.width());
    const QSizeF size = paper * zoom;
    return {QPointF((width - size.width()) / 2, edge + page * (size.height() + edge)), size};
}

int ReportPreview::heightForWidth(int width) const {
    if (!pages_) return 1;
    return static_cast<int>(std::ceil(placeOf(pages_->count() - 1, width).bottom() + edge));
}

void ReportPreview::tell() {
    QString words;
    if (pages_) {
        words = tr("%1 pages. ").arg(pages_->count());
        for (const auto& sentence : pages_->report().answer)
            words += QString::fromStdString(sentence) + u' ';
    }
    if (const QString state = state_words(this->state()); !state.isEmpty())
        words.prepend(state + QStringLiteral(". "));
    describe(tr("Preview of the report"), words.trimmed());
}

void ReportPreview::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                                const QFont&) const {
    painter.fillRect(QRectF(QPointF(0, 0), size), mixed(theme.surface, theme.ink, 0.08));
    if (!pages_) return;
    const QRectF seen =
        painter.hasClipping() ? painter.clipBoundingRect() : QRectF(visibleRegion().boundingRect());
    const double ratio = painter.device()->devicePixelRatioF();
    painted_.resize(static_cast<std::size_t>(pages_->count()));
    for (int page = 0; page < pages_->count(); ++page) {
        const QRectF place = placeOf(page, size.width());
        if (!seen.isEmpty() && !place.intersects(seen)) continue;
        QImage& image = painted_[static_cast<std::size_t>(page)];
        const QSize pixels = (place.size() * ratio).toSize();
        if (image.size() != pixels) {
            image = QImage(pixels, QImage::Format_RGB32);
            image.fill(Qt::white);
            QPainter paper(&image);
            paper.scale(pixels.width() / pages_->size().width(),
                        pixels.height() / pages_->size().height());
            pages_->paint(paper, page);
        }
        painter.drawImage(place, image);
        painter.setPen(QPen(theme.edge, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(place);
    }
}

}  // namespace ullage
