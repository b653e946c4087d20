// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/chart_export.h"

#include "core/site/replace_file.h"

#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QMimeData>
#include <QPainter>
#include <QSvgGenerator>

#include <algorithm>

namespace ullage {

namespace {

constexpr int svg_dots_per_inch = 96;
constexpr qreal picture_ratio = 2;

struct ChartExport {
    Q_DECLARE_TR_FUNCTIONS(ullage::ChartExport)
};

void ask_and_save(QWidget* parent, const QString& name, const QString& kinds, const QString& suffix,
                  const std::function<QString(const QString& path)>& save) {
    const QString start = QDir::home().filePath(file_stem(name) + suffix);
    QString filter;
    QString path = QFileDialog::getSaveFileName(parent, ChartExport::tr("Save"), start, kinds, &filter);
    if (path.isEmpty()) return;
    if (!QFileInfo(path).fileName().contains(u'.'))
        path += filter.contains(QStringLiteral("*.svg")) ? QStringLiteral(".svg") : suffix;
    const QString fault = save(path);
    if (!fault.isEmpty()) QMessageBox::warning(parent, ChartExport::tr("Save"), fault);
}

}  // namespace

QImage ExportPicture::image(qreal ratio) const {
    const QSize pixels(std::max(1, qRound(size.width() * ratio)), std::max(1, qRound(size.height() * ratio)));
    QImage made(pixels, QImage::Format_ARGB32_Premultiplied);
    made.setDevicePixelRatio(ratio);
    made.fill(ground);
    QPainter painter(&made);
    paint(painter, QRectF(QPointF(0, 0), QSizeF(size)));
    return made;
}

QByteArray ExportPicture::svg() const {
    QByteArray file;
    QBuffer buffer(&file);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(svg_dots_per_inch);
    generator.setSize(size);
    generator.setViewBox(QRect(QPoint(0, 0), size));
    generator.setTitle(title);
    QPainter painter(&generator);
    paint(painter, QRectF(QPointF(0, 0), QSizeF(size)));
    painter.end();
    return file;
}

void ExportPicture::copy() const {
    auto* copied = new QMimeData;
    copied->setImageData(image(picture_ratio));
    copied->setData(QStringLiteral("image/svg+xml"), svg());
    QApplication::clipboard()->setMimeData(copied);
}

QString ExportPicture::save(const QString& path) const {
    if (path.endsWith(QStringLiteral(".svg"), Qt::CaseInsensitive)) return save_bytes(path, svg());
    QByteArray bytes;
    QBuffer buffer(&bytes);
    image(picture_ratio).save(&buffer, "PNG");
    return save_bytes(path, bytes);
}

QString save_bytes(const QString& path, const QByteArray& bytes) {
    const auto result = replace_file(QFile::encodeName(path).toStdString(), bytes.toStdString());
    return result ? QString()
                  : ChartExport::tr("%1 was not saved: %2.")
                        .arg(QFileInfo(path).fileName(), QString::fromStdString(result.error()));
}

QString file_stem(const QString& name) {
    QString stem;
    for (const QChar c : name.toLower())
        stem += c.isLetterOrNumber()
                    ? c
                    : (stem.endsWith(u'-') || stem.isEmpty() ? QChar() : QChar(u'-'));
    stem.remove(QChar());
    while (stem.endsWith(u'-')) stem.chop(1);
    return stem.isEmpty() ? QStringLiteral("chart") : stem.left(80);
}

void ask_and_save_picture(QWidget* parent, const QString& name, const ExportPicture& picture) {
    ask_and_save(parent, name, ChartExport::tr("PNG (*.png);;SVG (*.svg)"), QStringLiteral(".png"),
                 [&](const QString& path) { return picture.save(path); });
}

void ask_and_save_numbers(QWidget* parent, const QString& name, const QString& comma_separated) {
    ask_and_save(parent, name, ChartExport::tr("Comma-separated values (*.csv)"), QStringLiteral(".csv"),
                 [&](const QString& path) { return save_bytes(path, comma_separated.toUtf8()); });
}

}  // namespace ullage
