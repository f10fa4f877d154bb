#pragma once

#include <string>
#include <vector>

#include "cli/context.hpp"
#include "practice/shop/meeting.hpp"

namespace cli {

/// A meeting as kept in the data home.
struct KeptMeeting {
    std::string path;
    practice::Meeting meeting;
};

/// The file of the meeting on a day.
[[nodiscard]] std::string meeting_path(const Context& context, const std::string& day);
/// All meetings, the earliest first. Throws Failure (bad_data) when one cannot be read.
[[nodiscard]] std::vector<KeptMeeting> load_meetings(const Context& context);
/// That of --of DATE, else the latest. Throws Failure (no_input) when there is none.
[[nodiscard]] KeptMeeting meeting_meant(const Context& context);
/// Written whole or not at all.
void keep_meeting(const Context& context, const practice::Meeting& meeting);

}  // namespace cli
