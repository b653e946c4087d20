// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A whole site from five figures: one dataset, a box it lives on, a box its copies go to, a line,
/// a nightly send. Everything else is the file format's default or stands in the site to be edited.

#include "core/site/site.h"

#include <QString>

namespace ullage::ui {

struct SmallSite {
    Entered<Bytes> live{decimal_tb(4), "4 TB"};
    Entered<Amount> growth_per_year{{0.2, Amount::Of::live_share}, "20 %"};
    Entered<Amount> written_per_day{{0.005, Amount::Of::live_share}, "0.5 %"};
    Entered<Bytes> usable{decimal_tb(12), "12 TB"};    ///< of the box that the copies go to
    Entered<BitsPerSecond> up{{100e6}, "100 Mbit/s"};  ///< of the line to it
};

/// `as_of` is today, `time_zone` an IANA name, `currency` three letters.
Site makeSite(const SmallSite& figures, Day as_of, const std::string& time_zone,
              const std::string& currency);

/// A site with nothing in it yet, in this machine's time zone and currency, as of today.
Site emptySite();
/// The same from five figures.
Site makeSiteHere(const SmallSite& figures);

}  // namespace ullage::ui
