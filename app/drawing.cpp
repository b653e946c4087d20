// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawing.h"

#include <dlfcn.h>
#include <filesystem>
#include <fmt/format.h>
#include <string_view>

namespace ullage {

namespace {

namespace fs = std::filesystem;

/// Beside the program where it was built, or where it is installed.
std::optional<fs::path> module_file() {
    std::error_code none;
    const fs::path folder = fs::read_symlink("/proc/self/exe", none).parent_path();
    for (const fs::path& place : {folder, folder / ULLAGE_MODULE_FOLDER})
        if (const fs::path file = place / ULLAGE_WINDOW_MODULE; fs::exists(file, none)) return file;
    return {};
}

tl::expected<const Drawing*, std::string> load() {
    const auto file = module_file();
    if (!file) return tl::unexpected(fmt::format("{}, the part of the program that draws, is not there", ULLAGE_WINDOW_MODULE));
    void* const module = dlopen(file->c_str(), RTLD_LAZY | RTLD_LOCAL);
    if (!module) return tl::unexpected(fmt::format("the part of the program that draws cannot be loaded: {}", dlerror()));
    const auto* const found = static_cast<const Drawing*>(dlsym(module, "ullage_drawing"));
    if (!found || std::string_view(found->version) != ULLAGE_VERSION)
        return tl::unexpected(fmt::format("{} belongs to another version of the program", file->string()));
    return found;
}

}  // namespace

const tl::expected<const Drawing*, std::string>& drawing() {
    static const auto loaded = load();
    return loaded;
}

}  // namespace ullage
