// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The report laid out on paper: what the PDF and the window's preview both paint.
///
/// Measures are in pixels of 104 to the inch. A paragraph breaks between lines, a table between rows
/// with its header again on the next page (only a row taller than a page is broken within), a
/// picture and a list's short item never. A heading stays with what follows it. Invariants: nothing
/// lies outside the margins, and nothing on a page lies on anything else.

#include "core/report/report.h"

#include <QByteArray>
#include <QImage>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <functional>
#include <memory>
#include <vector>

class QPainter;

namespace ullage {

enum class Paper { a4, letter };

class ReportPages {
public:
    /// `logo`: may be null.
    ReportPages(std::shared_ptr<const Answer> answer, ReportContent content, Paper paper,
                const QImage& logo = {});

    int count() const { return pages_; }
    QSizeF size() const { return size_; }     ///< of a page
    QRectF content() const { return room_; }  ///< within the margins
    Paper paper() const { return paper_; }
    /// Onto a page of `size()`, its corner at (0, 0).
    void paint(QPainter& painter, int page) const;
    /// The whole document, vectors and text; empty if it could not be made.
    QByteArray pdf() const;

    struct Placed {
        int page = 0;
        QRectF place;
        QString text;  ///< empty: a picture
        std::function<void(QPainter&)> paint;
    };
    const std::vector<Placed>& placed() const { return placed_; }
    const ReportContent& report() const { return content_; }

private:
    friend class PageSetter;
    std::shared_ptr<const Answer> answer_;
    ReportContent content_;
    Paper paper_;
    QSizeF size_;
    QRectF room_;
    int pages_ = 1;
    struct Mark {
        QString title;
        int page = 0;
        double y = 0;
        int level = 0;
    };
    std::vector<Mark> marks_;  ///< where sections and their parts begin
    std::vector<Placed> placed_;
};

}  // namespace ullage
