// What a second reader has not answered since it was last changed. Only for roots that keep readings.
#include <algorithm>
#include <map>
#include <set>

#include "content/check/check.hpp"
#include "content/reading.hpp"

namespace content {
namespace {

std::uint32_t root_of(const Contents& contents, const std::string& file) {
    const auto found =
        std::find_if(contents.files.begin(), contents.files.end(), [&](const SourceFile& f) { return f.path == file; });
    return found == contents.files.end() ? 0 : found->root;
}

void warn(base::Faults& faults, const Place& place, std::string what, std::string mend) {
    faults.push_back({place.file, place.pointer, place.line, std::move(what), std::move(mend), true});
}

}  // namespace

void check_readings(const Contents& contents, base::Faults& faults) {
    std::set<std::uint32_t> kept;
    for (const auto& reading : contents.readings) kept.insert(root_of(contents, reading.place.file));
    if (kept.empty()) return;
    const ReadingBook book{contents};
    std::set<std::string> there;
    for (const auto& one : to_read(contents)) {
        there.insert(one.id);
        if (!kept.contains(root_of(contents, one.question->place.file))) continue;
        const auto state = book.state(one);
        if (state == ReadingBook::State::read) continue;
        const bool never = state == ReadingBook::State::never;
        warn(faults, one.question->place,
             one.id +
                 (never ? ": nobody has answered it as a second reader for "
                        : ": it has changed since a second reader answered it for ") +
                 trade::to_text(one.edition),
             "'greentag library unread' has it without its answer; 'greentag library reading' marks what a reader "
             "gives");
    }
    for (const auto& reading : contents.readings)
        if (!there.contains(reading.question))
            warn(faults, reading.place, "a reading of '" + reading.question + "', which is no question any more",
                 "remove it");
}

}  // namespace content
