// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/column_memory.h"

#include "ui/window/window_settings.h"

#include <QCryptographicHash>

#include <algorithm>

namespace ullage::ui {

namespace {

constexpr qsizetype most_kept = 30;
const QString order_key = QStringLiteral("import/known");

/// Short and without what a settings key may not hold.
QString keyOf(const ListingPreview& preview) {
    QByteArray columns;
    for (const std::string& name : preview.header) columns += QByteArray::fromStdString(name) + '\0';
    columns += QByteArray::number(static_cast<qulonglong>(preview.columns()));
    return QString::fromLatin1(QCryptographicHash::hash(columns, QCryptographicHash::Sha1).toHex());
}

QString rolesKey(const QString& key) { return QStringLiteral("import/roles/") + key; }

}  // namespace

std::optional<QStringList> ColumnMemory::recall(const ListingPreview& preview) {
    const QStringList roles = windowSettings().value(rolesKey(keyOf(preview))).toStringList();
    if (static_cast<std::size_t>(roles.size()) != preview.columns()) return std::nullopt;
    return roles;
}

void ColumnMemory::keep(const ListingPreview& preview, const QStringList& roles) {
    auto settings = windowSettings();
    const QString key = keyOf(preview);
    settings.setValue(rolesKey(key), roles);
    QStringList known = settings.value(order_key).toStringList();
    known.removeAll(key);
    known.prepend(key);
    while (known.size() > most_kept) settings.remove(rolesKey(known.takeLast()));
    settings.setValue(order_key, known);
}

}  // namespace ullage::ui
