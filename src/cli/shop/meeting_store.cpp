#include "cli/shop/meeting_store.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/whole_file.hpp"
#include "content/source.hpp"
#include "report/meeting/meeting_json.hpp"

namespace cli {
namespace {

namespace fs = std::filesystem;
using base::Exit;
using base::Failure;

std::string folder_of(const Context& context) {
    return context.home() + "/meetings";
}

KeptMeeting read(const Context& context, const std::string& path) {
    const auto text = content::read_source(path);
    if (!text) throw Failure{Exit::bad_data, base::to_text(text.error().front()), "mend the file or move it away"};
    auto meeting = report::read_meeting(*text, path);
    if (meeting) return {path, std::move(*meeting)};
    tell(context.err(), meeting.error());
    throw Failure{Exit::bad_data, path + ": the meeting cannot be read", "mend the file or move it away"};
}

}  // namespace

std::string meeting_path(const Context& context, const std::string& day) {
    return folder_of(context) + "/" + day + ".json";
}

std::vector<KeptMeeting> load_meetings(const Context& context) {
    std::vector<std::string> paths;
    std::error_code error;
    for (fs::directory_iterator at{folder_of(context), error}, end; !error && at != end; at.increment(error))
        if (at->path().extension() == ".json") paths.push_back(at->path().string());
    std::sort(paths.begin(), paths.end());
    std::vector<KeptMeeting> meetings;
    for (const auto& path : paths) meetings.push_back(read(context, path));
    return meetings;
}

KeptMeeting meeting_meant(const Context& context) {
    if (const auto day = context.instant("--of")) {
        const std::string path = meeting_path(context, base::date_text(*day));
        std::error_code error;
        if (fs::exists(path, error)) return read(context, path);
        throw Failure{Exit::no_input, "no meeting is planned for " + base::date_text(*day),
                      "plan it: greentag meeting plan --on " + base::date_text(*day)};
    }
    auto meetings = load_meetings(context);
    if (meetings.empty()) throw Failure{Exit::no_input, "no meeting is planned yet", "plan one: greentag meeting plan"};
    return std::move(meetings.back());
}

void keep_meeting(const Context& context, const practice::Meeting& meeting) {
    std::error_code error;
    fs::create_directories(folder_of(context), error);
    write_whole(meeting_path(context, base::date_text(meeting.day)),
                [&](std::ostream& out) { out << report::meeting_json(meeting).dump(1) << '\n'; });
}

}  // namespace cli
