// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/item_edits.h"

#include <QCoreApplication>

#include <algorithm>

namespace ullage::ui {

namespace {

class Items {
    Q_DECLARE_TR_FUNCTIONS(Items)
};

bool hasName(const Site& site, ItemKind kind, const QString& name, int but_index = -1) {
    for (int i = 0; i < countOf(site, kind); ++i)
        if (i != but_index && nameOf(site, {kind, i}) == name) return true;
    return false;
}

template <class Item>
ItemRef duplicateIn(std::vector<Item>& items, ItemRef item, const QString& name) {
    Item copy = items[static_cast<std::size_t>(item.index)];
    copy.name = name.toStdString();
    items.insert(items.begin() + item.index + 1, std::move(copy));
    return {item.kind, item.index + 1};
}

template <class Item>
ItemRef moveIn(std::vector<Item>& items, ItemRef item, int by) {
    const int to = std::clamp(item.index + by, 0, static_cast<int>(items.size()) - 1);
    const auto from = items.begin() + item.index;
    if (to > item.index)
        std::rotate(from, from + 1, items.begin() + to + 1);
    else
        std::rotate(items.begin() + to, from, from + 1);
    return {item.kind, to};
}

void replaceName(std::string& where, const std::string& from, const std::string& to) {
    if (where == from) where = to;
}

void renameReferences(Site& site, ItemKind kind, const std::string& from, const std::string& to) {
    switch (kind) {
        case ItemKind::dataset:
            for (Send& send : site.sends)
                for (std::string& dataset : send.datasets) replaceName(dataset, from, to);
            break;
        case ItemKind::box:
            for (Dataset& dataset : site.datasets) replaceName(dataset.home, from, to);
            for (Offer& offer : site.offers) replaceName(offer.box, from, to);
            for (Send& send : site.sends) {
                replaceName(send.from, from, to);
                replaceName(send.to, from, to);
            }
            break;
        case ItemKind::link:
            for (Send& send : site.sends) replaceName(send.over, from, to);
            break;
        case ItemKind::site:
        case ItemKind::send:
        case ItemKind::offer:
            break;
    }
}

void setName(Site& site, ItemRef item, const std::string& name) {
    const auto i = static_cast<std::size_t>(item.index);
    switch (item.kind) {
        case ItemKind::site:
            site.name = name;
            break;
        case ItemKind::dataset:
            site.datasets[i].name = name;
            break;
        case ItemKind::box:
            site.boxes[i].name = name;
            break;
        case ItemKind::link:
            site.links[i].name = name;
            break;
        case ItemKind::send:
            site.sends[i].name = name;
            break;
        case ItemKind::offer:
            site.offers[i].name = name;
            break;
    }
}

bool contains(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool receives(const Site& site, const std::string& box, const std::string& dataset) {
    return std::any_of(site.sends.begin(), site.sends.end(), [&](const Send& send) {
        return send.to == box && contains(send.datasets, dataset);
    });
}

/// True if the send cannot be without the item.
bool sendNeeds(const Send& send, ItemKind kind, const std::string& name) {
    switch (kind) {
        case ItemKind::dataset:
            return send.datasets.size() == 1 && send.datasets.front() == name;
        case ItemKind::box:
            return send.from == name || send.to == name;
        case ItemKind::link:
            return send.over == name;
        default:
            return false;
    }
}

}  // namespace

QString freeName(const Site& site, ItemKind kind, const QString& wish) {
    if (!hasName(site, kind, wish)) return wish;
    for (int n = 2;; ++n) {
        const QString name = QStringLiteral("%1 %2").arg(wish).arg(n);
        if (!hasName(site, kind, name)) return name;
    }
}

QString missingFor(const Site& site, ItemKind kind) {
    if (kind == ItemKind::send) {
        if (site.datasets.empty()) return Items::tr("A send needs a dataset: add one first.");
        if (site.boxes.size() < 2) return Items::tr("A send needs two boxes: add one first.");
        if (site.links.empty()) return Items::tr("A send needs a link: add one first.");
    }
    if (kind == ItemKind::offer && site.boxes.empty())
        return Items::tr("An offer needs a box: add one first.");
    return {};
}

ItemRef addItem(Site& site, ItemKind kind) {
    const std::string name = freeName(site, kind, kindName(kind)).toStdString();
    switch (kind) {
        case ItemKind::dataset: {
            Dataset dataset;
            dataset.name = name;
            if (!site.boxes.empty()) dataset.home = site.boxes.front().name;
            dataset.live = Entered<Bytes>{decimal_tb(1), "1 TB"};
            dataset.turnover.emplace();
            dataset.turnover->per_day = Entered<Amount>{{0.005, Amount::Of::live_share}, "0.5 %"};
            dataset.ladder.push_back(
                Rung{Entered<Period>{{1, Period::Unit::day}, "1 d"}, 30, std::nullopt, {}});
            site.datasets.push_back(std::move(dataset));
            break;
        }
        case ItemKind::box: {
            Box box;
            box.name = name;
            box.usable = Entered<Bytes>{decimal_tb(10), "10 TB"};
            site.boxes.push_back(std::move(box));
            break;
        }
        case ItemKind::link: {
            Link link;
            link.name = name;
            link.up = link.down = Entered<BitsPerSecond>{{100e6}, "100 Mbit/s"};
            site.links.push_back(std::move(link));
            break;
        }
        case ItemKind::send: {
            Send send;
            send.name = name;
            send.datasets = {site.datasets.front().name};
            const std::string& home = site.datasets.front().home;
            send.from = home.empty() ? site.boxes.front().name : home;
            for (const Box& box : site.boxes) {
                if (box.name == send.from) continue;
                // One that no send carries the dataset to yet, if there is one.
                if (send.to.empty() || receives(site, send.to, send.datasets.front()))
                    send.to = box.name;
            }
            send.over = site.links.front().name;
            site.sends.push_back(std::move(send));
            break;
        }
        case ItemKind::offer: {
            Offer offer;
            offer.name = name;
            offer.box = site.boxes.back().name;
            offer.usable = Entered<Bytes>{decimal_tb(20), "20 TB"};
            site.offers.push_back(std::move(offer));
            break;
        }
        case ItemKind::site:
            return {};
    }
    return {kind, countOf(site, kind) - 1};
}

ItemRef addMeasuredDataset(Site& site, const QString& name) {
    Dataset dataset;
    dataset.name = freeName(site, ItemKind::dataset, name).toStdString();
    if (!site.boxes.empty()) dataset.home = site.boxes.front().name;
    dataset.turnover.emplace();
    dataset.ladder.push_back(
        Rung{Entered<Period>{{1, Period::Unit::day}, "1 d"}, 30, std::nullopt, {}});
    site.datasets.push_back(std::move(dataset));
    return {ItemKind::dataset, countOf(site, ItemKind::dataset) - 1};
}

ItemRef duplicateItem(Site& site, ItemRef item) {
    if (!exists(site, item)) return item;
    const QString name = freeName(site, item.kind, Items::tr("%1 copy").arg(nameOf(site, item)));
    switch (item.kind) {
        case ItemKind::dataset:
            return duplicateIn(site.datasets, item, name);
        case ItemKind::box:
            return duplicateIn(site.boxes, item, name);
        case ItemKind::link:
            return duplicateIn(site.links, item, name);
        case ItemKind::send:
            return duplicateIn(site.sends, item, name);
        case ItemKind::offer:
            return duplicateIn(site.offers, item, name);
        case ItemKind::site:
            break;
    }
    return item;
}

ItemRef moveItem(Site& site, ItemRef item, int by) {
    if (!exists(site, item)) return item;
    switch (item.kind) {
        case ItemKind::dataset:
            return moveIn(site.datasets, item, by);
        case ItemKind::box:
            return moveIn(site.boxes, item, by);
        case ItemKind::link:
            return moveIn(site.links, item, by);
        case ItemKind::send:
            return moveIn(site.sends, item, by);
        case ItemKind::offer:
            return moveIn(site.offers, item, by);
        case ItemKind::site:
            break;
    }
    return item;
}

QString renameItem(Site& site, ItemRef item, const QString& name) {
    if (!exists(site, item)) return Items::tr("It is no longer there.");
    const QString wanted = name.trimmed();
    if (wanted.isEmpty() && item.kind != ItemKind::site) return Items::tr("A name is needed.");
    if (item.kind != ItemKind::site && hasName(site, item.kind, wanted, item.index))
        return Items::tr("Another %1 is called “%2”: choose another name.")
            .arg(kindName(item.kind), wanted);
    const std::string old_name = nameOf(site, item).toStdString();
    setName(site, item, wanted.toStdString());
    renameReferences(site, item.kind, old_name, wanted.toStdString());
    return {};
}

QStringList consequencesOfRemoval(const Site& site, ItemRef item) {
    QStringList phrases;
    const QString name_text = nameOf(site, item);
    const std::string name = name_text.toStdString();
    for (const Send& send : site.sends) {
        const QString send_name = QString::fromStdString(send.name);
        if (sendNeeds(send, item.kind, name))
            phrases << Items::tr("the send “%1” is removed too").arg(send_name);
        else if (item.kind == ItemKind::dataset && contains(send.datasets, name))
            phrases << Items::tr("the send “%1” no longer carries it").arg(send_name);
    }
    if (item.kind == ItemKind::box) {
        for (const Offer& offer : site.offers)
            if (offer.box == name)
                phrases << Items::tr("the offer “%1” is removed too")
                               .arg(QString::fromStdString(offer.name));
        for (const Dataset& dataset : site.datasets)
            if (dataset.home == name)
                phrases << Items::tr("the dataset “%1” is left without a home")
                               .arg(QString::fromStdString(dataset.name));
    }
    return phrases;
}

void removeItem(Site& site, ItemRef item) {
    if (!exists(site, item) || item.kind == ItemKind::site) return;
    const std::string name = nameOf(site, item).toStdString();
    if (item.kind == ItemKind::dataset || item.kind == ItemKind::box || item.kind == ItemKind::link)
        std::erase_if(site.sends, [&](const Send& s) { return sendNeeds(s, item.kind, name); });
    switch (item.kind) {
        case ItemKind::dataset:
            for (Send& send : site.sends) std::erase(send.datasets, name);
            site.datasets.erase(site.datasets.begin() + item.index);
            break;
        case ItemKind::box:
            std::erase_if(site.offers, [&](const Offer& o) { return o.box == name; });
            for (Dataset& dataset : site.datasets)
                if (dataset.home == name) dataset.home.clear();
            site.boxes.erase(site.boxes.begin() + item.index);
            break;
        case ItemKind::link:
            site.links.erase(site.links.begin() + item.index);
            break;
        case ItemKind::send:
            site.sends.erase(site.sends.begin() + item.index);
            break;
        case ItemKind::offer:
            site.offers.erase(site.offers.begin() + item.index);
            break;
        case ItemKind::site:
            break;
    }
}

}  // namespace ullage::ui
