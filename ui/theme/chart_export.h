// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Charts and their numbers out of the program: to the clipboard, to a file.

#include <QByteArray>
#include <QImage>
#include <QRectF>
#include <QSize>
#include <QString>

#include <functional>

class QPainter;
class QWidget;

namespace ullage {

/// A picture in a size and on a ground of its own.
struct ExportPicture {
    QString title;
    QSize size;  ///< logical pixels
    QColor ground;
    std::function<void(QPainter&, const QRectF& place)> paint;

    QImage image(qreal ratio) const;
    QByteArray svg() const;  ///< SVG 1.2 Tiny
    /// Both, to the clipboard.
    void copy() const;
    /// To a file: SVG if its name ends so, else PNG at twice the size. Empty, or why not.
    QString save(const QString& path) const;
};

/// Replaces the file. Empty, or why not.
QString save_bytes(const QString& path, const QByteArray& bytes);

/// A file name of the letters and figures of a text: "Attic box" → "attic-box".
QString file_stem(const QString& name);

/// Asks for a file to save a picture, or comma-separated numbers, to; what goes wrong is shown.
void ask_and_save_picture(QWidget* parent, const QString& name, const ExportPicture& picture);
void ask_and_save_numbers(QWidget* parent, const QString& name, const QString& comma_separated);

}  // namespace ullage
