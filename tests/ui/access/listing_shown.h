// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The import of a listing with all that it can show: foreign columns, several datasets, lines that cannot be read.

#include "core/measure/evidence.h"
#include "ui/import/column_memory.h"
#include "ui/import/import_dialog.h"

#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <memory>

namespace ullage::ui {

class ListingShown {
public:
    explicit ListingShown(const Site& site, QWidget* parent = nullptr) {
        const QString path = folder_.filePath(QStringLiteral("quayside-store.tsv"));
        QFile file(path);
        if (!file.open(QIODevice::WriteOnly)) throw std::runtime_error("no file");
        file.write("snapshot\ttaken\towner\tunique\tlive\tnew\n");
        for (const char* dataset : {"store/scans", "store/mail", "store/virtual disks"})
            for (int i = 0; i < 30; ++i)
                file.write(QStringLiteral("%1@nightly-%2\t%3\tops\t%4\t%5\t%6\n")
                               .arg(QLatin1String(dataset)).arg(i).arg(1790726400LL + 86400LL * i)
                               .arg(40'000'000 + 1000 * i).arg(5'000'000'000LL + 10'000'000LL * i).arg(120'000'000).toUtf8());
        file.write("store/mail@odd\tyesterday\tops\t0\t1\t1\nstore/mail@odd2\t1790726401\tops\t-5\t1\t1\n");
        file.close();
        auto preview = preview_listing_of(path.toStdString(), 6);
        if (!preview) throw std::runtime_error("no preview");
        ColumnMemory::keep(*preview, {QStringLiteral("snapshot"), QStringLiteral("taken"), QString(),
                                      QStringLiteral("unique"), QStringLiteral("live"), QStringLiteral("written")});
        dialog = std::make_unique<ImportDialog>(path, QStringLiteral("quayside-store.tsv"), *std::move(preview), site, parent);
        dialog->show();
        if (!QTest::qWaitFor([&] { return !dialog->isReading(); })) throw std::runtime_error("still reading");
        QTest::qWait(50);
    }

private:
    QTemporaryDir folder_;

public:
    std::unique_ptr<ImportDialog> dialog;
};

}  // namespace ullage::ui
