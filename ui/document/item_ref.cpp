// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/item_ref.h"

#include <QCoreApplication>
#include <QStringList>

namespace ullage::ui {

namespace {

struct KindWords {
    ItemKind kind;
    const char* key;  ///< of the site file
    const char* one;
    const char* many;
};

constexpr KindWords words_of_kinds[] = {
    {ItemKind::dataset, "datasets", QT_TRANSLATE_NOOP("Items", "dataset"),
     QT_TRANSLATE_NOOP("Items", "Datasets")},
    {ItemKind::box, "boxes", QT_TRANSLATE_NOOP("Items", "box"),
     QT_TRANSLATE_NOOP("Items", "Boxes")},
    {ItemKind::link, "links", QT_TRANSLATE_NOOP("Items", "link"),
     QT_TRANSLATE_NOOP("Items", "Links")},
    {ItemKind::send, "sends", QT_TRANSLATE_NOOP("Items", "send"),
     QT_TRANSLATE_NOOP("Items", "Sends")},
    {ItemKind::offer, "offers", QT_TRANSLATE_NOOP("Items", "offer"),
     QT_TRANSLATE_NOOP("Items", "Offers")},
};

const KindWords* wordsOf(ItemKind kind) {
    for (const KindWords& words : words_of_kinds)
        if (words.kind == kind) return &words;
    return nullptr;
}

template <class Items>
QString nameIn(const Items& items, int index) {
    if (index < 0 || index >= static_cast<int>(items.size())) return {};
    return QString::fromStdString(items[static_cast<std::size_t>(index)].name);
}

}  // namespace

QString pointerOf(ItemRef item) {
    const KindWords* words = wordsOf(item.kind);
    if (!words) return {};
    return QStringLiteral("/%1/%2").arg(QLatin1String(words->key)).arg(item.index);
}

std::optional<ItemRef> itemAt(const QString& pointer) {
    if (pointer.isEmpty()) return ItemRef{};
    const QStringList parts = pointer.split(QLatin1Char('/'));
    if (parts.size() < 2) return std::nullopt;
    for (const KindWords& words : words_of_kinds) {
        if (parts[1] != QLatin1String(words.key)) continue;
        if (parts.size() < 3) return std::nullopt;
        bool is_number = false;
        const int index = parts[2].toInt(&is_number);
        if (!is_number || index < 0) return std::nullopt;
        return ItemRef{words.kind, index};
    }
    return ItemRef{};
}

int countOf(const Site& site, ItemKind kind) {
    switch (kind) {
        case ItemKind::site:
            return 1;
        case ItemKind::dataset:
            return static_cast<int>(site.datasets.size());
        case ItemKind::box:
            return static_cast<int>(site.boxes.size());
        case ItemKind::link:
            return static_cast<int>(site.links.size());
        case ItemKind::send:
            return static_cast<int>(site.sends.size());
        case ItemKind::offer:
            return static_cast<int>(site.offers.size());
    }
    return 0;
}

QString nameOf(const Site& site, ItemRef item) {
    switch (item.kind) {
        case ItemKind::site:
            return QString::fromStdString(site.name);
        case ItemKind::dataset:
            return nameIn(site.datasets, item.index);
        case ItemKind::box:
            return nameIn(site.boxes, item.index);
        case ItemKind::link:
            return nameIn(site.links, item.index);
        case ItemKind::send:
            return nameIn(site.sends, item.index);
        case ItemKind::offer:
            return nameIn(site.offers, item.index);
    }
    return {};
}

bool exists(const Site& site, ItemRef item) {
    return item.index >= 0 && item.index < countOf(site, item.kind);
}

QString kindName(ItemKind kind) {
    const KindWords* words = wordsOf(kind);
    return words ? QCoreApplication::translate("Items", words->one)
                 : QCoreApplication::translate("Items", "site");
}

QString sectionTitle(ItemKind kind) {
    const KindWords* words = wordsOf(kind);
    return words ? QCoreApplication::translate("Items", words->many)
                 : QCoreApplication::translate("Items", "Site");
}

}  // namespace ullage::ui
