// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gallery/sample_gallery.h"

#include "core/measure/evidence.h"
#include "core/site/site_json.h"
#include "ui/gallery/sample_card.h"
#include "ui/theme/tile_layout.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>

#include <memory>

namespace ullage::ui {

namespace {

constexpr int preview_paths = 48;
constexpr int card_gap = 12;

std::string fileName(const QString& path) { return QFile::encodeName(path).toStdString(); }

std::optional<SamplePicture> pictureOf(const std::string& path, const std::stop_token& stop) {
    const auto site = read_site_file(path);
    if (!site) return {};
    const auto evidence = load_evidence(*site, folder_of(path));
    if (!evidence) return {};
    Settings settings;
    settings.paths = preview_paths;
    settings.threads = 1;
    settings.searched = false;
    const auto a = answer(*site, *evidence, settings, {stop, {}});
    if (!a) return {};
    return SamplePicture::of(*a);
}

}  // namespace

QString whatItShows(const Site& site) {
    const auto found = site.extras.find("x-shows");
    if (found == site.extras.end()) return {};
    // A JSON text by itself: as the only item of a list Qt reads it.
    const auto list = QJsonDocument::fromJson('[' + QByteArray::fromStdString(found->second) + ']').array();
    return list.isEmpty() ? QString() : list.first().toString();
}

SampleGallery::SampleGallery(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("sampleGallery"));
    auto* tiles = new TileLayout(SampleCard::leastWidth(font()), card_gap, this);
    tiles->setContentsMargins(0, 0, 0, 0);
}

void SampleGallery::setSamples(const QStringList& paths) {
    if (paths == paths_) return;
    task_.drop();
    paths_ = paths;
    qDeleteAll(cards_);
    cards_.clear();
    auto files = std::make_shared<std::vector<std::pair<QString, std::string>>>();
    for (const QString& path : paths) {
        const auto site = read_site_file(fileName(path));
        if (!site) continue;
        auto* card = new SampleCard(QString::fromStdString(site->name), whatItShows(*site), this);
        card->setObjectName(QStringLiteral("start.sample.%1").arg(cards_.size()));
        connect(card, &QAbstractButton::clicked, this, [this, path] { emit chosen(path); });
        layout()->addWidget(card);
        card->show();
        cards_.insert(path, card);
        files->emplace_back(path, fileName(path));
    }
    if (files->empty()) return;
    task_.post(
        [this, files](const LatestTask::Turn& turn) {
            for (const auto& [path, file] : *files) {
                if (turn.stop.stop_requested()) return;
                const auto picture = pictureOf(file, turn.stop);
                if (!picture) continue;
                turn.deliver([this, path = path, picture = *picture] {
                    if (auto* card = cards_.value(path)) card->setPicture(picture);
                });
            }
        },
        Pace::soon);
}

}  // namespace ullage::ui
