// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The pages of a report one under the other, painted as the PDF paints them, as wide as there is
/// room.

#include "ui/report/report_pages.h"
#include "ui/theme/drawn_widget.h"

#include <memory>

namespace ullage {

class ReportPreview : public DrawnWidget {
    Q_OBJECT

public:
    explicit ReportPreview(QWidget* parent = nullptr);

    /// Null: nothing yet.
    void setPages(std::shared_ptr<const ReportPages> pages);
    /// Where a page lies in a widget of that width.
    QRectF placeOf(int page, double width) const;

    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;
    void stateChanged() override { tell(); }

private:
    void tell();

    std::shared_ptr<const ReportPages> pages_;
    mutable std::vector<QImage> painted_;  ///< of the last size; made when first seen
};

}  // namespace ullage
