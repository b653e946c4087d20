// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/small.h"

#include "ui/document/small_site.h"

namespace ullage::ui {

Site smallSite() {
    const Day as_of = std::chrono::year(2026) / std::chrono::November / 1;
    Site site = makeSite({}, as_of, "UTC", "EUR");
    site.name = "Quayside Veterinary (invented)";
    site.boxes[1].lead_time = Entered<Duration>{days(21), "21 d"};
    Offer offer;
    offer.name = "six 16 TB drives";
    offer.box = site.boxes[1].name;
    offer.price = Money{2150};
    offer.usable = Entered<Bytes>{decimal_tb(50), "50 TB"};
    site.offers = {offer};
    return site;
}

Answer plainAnswer(const Site& site, int paths) {
    Answer answer;
    answer.site = site;
    answer.outlook.site = site.name;
    answer.outlook.as_of = site.as_of;
    answer.outlook.horizon_days = in_days(site.horizon.value);
    answer.outlook.confidence = site.confidence;
    answer.outlook.paths = paths;
    for (std::size_t i = 0; i < site.boxes.size(); ++i) {
        BoxOutlook box;
        box.name = site.boxes[i].name;
        box.usable_bytes = 12e12;
        box.ceiling_bytes = 9.6e12;
        for (const double after_days : {0.0, answer.outlook.horizon_days}) {
            FillPoint point;
            point.date = add_days(site.as_of, after_days);
            box.fill.push_back(point);
        }
        answer.outlook.boxes.push_back(box);
        answer.findings.push_back(
            {Level::fits, "/boxes/" + std::to_string(i), box.name + " lasts."});
    }
    for (const Send& send : site.sends) {
        SendOutlook outlook;
        outlook.name = send.name;
        answer.outlook.sends.push_back(outlook);
    }
    return answer;
}

}  // namespace ullage::ui
