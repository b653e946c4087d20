// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/write_report.h"

#include "core/report/html.h"
#include "ui/report/report_pictures.h"

#include <QBuffer>
#include <QImageReader>

namespace ullage {

std::string html_of(const Answer& answer, const ReportContent& content, const QImage& logo) {
    const ReportPictures pictures(answer);
    HtmlOptions options;
    options.draw = [&](const ReportPicture& picture) { return pictures.svg(picture); };
    if (!logo.isNull()) {
        QByteArray png;
        QBuffer buffer(&png);
        // Drawn anew: nothing of the file but its picture gets into the report.
        if (buffer.open(QIODevice::WriteOnly) && logo.save(&buffer, "PNG"))
            options.logo_png_base64 = png.toBase64().toStdString();
    }
    return report_html(content, options);
}

tl::expected<QImage, std::string> read_logo(const QByteArray& bytes) {
    if (bytes.isEmpty()) return QImage();
    constexpr int widest = 800, highest = 320;
    QBuffer buffer;
    buffer.setData(bytes);
    buffer.open(QIODevice::ReadOnly);
    QImageReader reader(&buffer);
    const QByteArray format = QImageReader::imageFormat(&buffer);
    if (format != "png" && format != "jpeg")
        return tl::unexpected(std::string("this is no PNG or JPEG picture"));
    reader.setAutoTransform(true);
    QImage picture = reader.read();
    if (picture.isNull())
        return tl::unexpected(std::string("the picture cannot be read; save it as a PNG again"));
    if (picture.width() > widest || picture.height() > highest)
        picture = picture.scaled(widest, highest, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    return picture;
}

}  // namespace ullage
