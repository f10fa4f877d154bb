#include "content/source.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

#include <sys/stat.h>

#include "base/text.hpp"

namespace content {
namespace {

namespace fs = std::filesystem;

base::Fault about(const std::string& file, std::string what, std::string mend, int line = 0) {
    base::Fault fault;
    fault.file = file;
    fault.line = line;
    fault.what = std::move(what);
    fault.mend = std::move(mend);
    return fault;
}

void add_file(const std::string& path, std::uint32_t root, std::vector<SourceFile>& found) {
    struct stat seen {};
    // One call for everything that is asked of a file: every start asks it of all of them.
    if (::stat(path.c_str(), &seen) != 0 || !S_ISREG(seen.st_mode)) return;
    SourceFile file;
    file.path = path;
    file.root = root;
    file.size = static_cast<std::uint64_t>(seen.st_size);
    file.changed_ns = std::int64_t{seen.st_mtim.tv_sec} * 1'000'000'000 + seen.st_mtim.tv_nsec;
    found.push_back(std::move(file));
}

void add_folder(const fs::path& folder, std::uint32_t root, std::vector<SourceFile>& found) {
    std::error_code error;
    for (fs::recursive_directory_iterator at{folder, error}, end; !error && at != end; at.increment(error))
        if (at->path().native().ends_with(".json")) add_file(at->path().native(), root, found);
}

}  // namespace

base::Checked<std::vector<SourceFile>> find_sources(const std::vector<std::string>& roots) {
    std::vector<SourceFile> found;
    base::Faults faults;
    for (std::uint32_t i = 0; i < roots.size(); ++i) {
        std::error_code error;
        const fs::path root{roots[i]};
        const bool decks = fs::is_directory(root / "decks", error);
        const bool scenarios = fs::is_directory(root / "scenarios", error);
        if (!decks && !scenarios)
            faults.push_back(about(roots[i],
                                   fs::exists(root, error) ? "this folder holds neither decks/ nor scenarios/"
                                                           : "there is no such content folder",
                                   "name a folder with decks/ or scenarios/ in it, by --library DIR"));
        const auto first = static_cast<std::ptrdiff_t>(found.size());
        if (decks) add_folder(root / "decks", i, found);
        if (scenarios) add_folder(root / "scenarios", i, found);
        std::sort(found.begin() + first, found.end(),
                  [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
    }
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    return found;
}

base::Checked<std::string> read_source(const std::string& path) {
    std::error_code error;
    if (fs::is_directory(path, error))
        return tl::unexpected<base::Faults>{base::Faults{about(path, "is a folder", "name a file")}};
    std::ifstream in{path, std::ios::binary};
    std::string text{std::istreambuf_iterator<char>{in}, {}};
    if (!in.is_open() || in.bad())
        return tl::unexpected<base::Faults>{
            base::Faults{about(path, "cannot be read", "check that it is there and readable")}};
    if (const auto bad = base::first_bad_utf8(text)) {
        const auto line =
            1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(*bad), '\n'));
        return tl::unexpected<base::Faults>{
            base::Faults{about(path, "holds bytes that are not UTF-8", "save the file as UTF-8", line)}};
    }
    return text;
}

std::string read_slice(const std::string& path, std::uint64_t begin, std::uint64_t end) {
    std::ifstream in{path, std::ios::binary};
    in.seekg(static_cast<std::streamoff>(begin));
    std::string slice(static_cast<std::size_t>(end - begin), '\0');
    if (!in.read(slice.data(), static_cast<std::streamsize>(slice.size()))) return {};
    return slice;
}

}  // namespace content
