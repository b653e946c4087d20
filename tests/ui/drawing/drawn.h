// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Helpers of the drawing tests.

#include <QCoreApplication>
#include <QImage>
#include <QPixmap>
#include <QRectF>
#include <QSet>
#include <QWidget>

#include <vector>

namespace ullage {

inline void settle() {
    for (int i = 0; i < 3; ++i) QCoreApplication::processEvents();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
}

inline QImage picture_of(QWidget& widget) {
    settle();
    return widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
}

/// Number of different colours, at most `enough`.
inline int colours_in(const QImage& image, int enough = 1000) {
    QSet<QRgb> seen;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width() && seen.size() < enough; ++x)
            seen.insert(image.pixel(x, y));
    return static_cast<int>(seen.size());
}

/// Mean lightness, 0…255.
inline double lightness_of(const QImage& image) {
    double sum = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) sum += qGray(image.pixel(x, y));
    return sum / (static_cast<double>(image.width()) * image.height());
}

inline bool any_overlap(const std::vector<QRectF>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t k = i + 1; k < boxes.size(); ++k)
            // Touching edges are not an overlap; half a pixel is rounding.
            if (boxes[i]
                    .adjusted(0.5, 0.5, -0.5, -0.5)
                    .intersects(boxes[k].adjusted(0.5, 0.5, -0.5, -0.5)))
                return true;
    return false;
}

}  // namespace ullage
