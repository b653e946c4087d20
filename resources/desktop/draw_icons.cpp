// SPDX-License-Identifier: GPL-3.0-or-later
/// Draws an SVG as PNG files of the sizes that desktops ask for:
///   draw_icons ICON.svg FOLDER      writes FOLDER/16.png, 22.png … 512.png
#include <QByteArray>
#include <QImage>
#include <QPainter>
#include <QSvgRenderer>

#include <cstdio>

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    QSvgRenderer icon(QString::fromLocal8Bit(argv[1]));
    if (!icon.isValid()) {
        std::fprintf(stderr, "%s is not an SVG that can be drawn\n", argv[1]);
        return 1;
    }
    for (const int size : {16, 22, 24, 32, 48, 64, 128, 256, 512}) {
        QImage image(size, size, QImage::Format_ARGB32_Premultiplied);
        image.fill(Qt::transparent);
        QPainter painter(&image);
        icon.render(&painter);
        painter.end();
        const QString name = QStringLiteral("%1/%2.png").arg(QString::fromLocal8Bit(argv[2])).arg(size);
        if (!image.save(name)) {
            std::fprintf(stderr, "%s cannot be written\n", qPrintable(name));
            return 3;
        }
    }
    return 0;
}
