#pragma once

#include "cli/context.hpp"
#include "cli/exam/sitting_file.hpp"
#include "cli/study/session_setup.hpp"
#include "content/outline.hpp"
#include "practice/exam/sitting.hpp"

namespace cli {

/// What may be typed on a desk besides an answer.
[[nodiscard]] const char* desk_help();

/// A learner at a mock exam, in a terminal or by a pipe: asks in any order, flags, the time left, and no word of what
/// is right. Everything done is in the file before the screen goes on.
class SittingDesk {
public:
    SittingDesk(Context& context, practice::Sitting& sitting, const content::Outline& outline, SittingFile& file);

    /// Until the exam is over or the learner leaves; true when it is over.
    bool run();
    [[nodiscard]] base::Instant now() const { return clock_.now(); }

private:
    enum class Then { stay, left, over };

    void show(const std::vector<std::string>& lines);
    void say(const std::string& text);
    void show_ask();
    std::optional<std::string> read(const std::string& prompt);
    Then take(const std::string& line);
    Then command(const std::string& word);
    void answer(const std::string& line);
    bool keep(practice::Did did, const std::string& given = "", memory::Sure sure = memory::Sure::fairly);
    void go(std::size_t place);
    void go_to_open();
    Then hand_in();

    Context* context_;
    practice::Sitting* sitting_;
    const content::Outline* outline_;
    SittingFile* file_;
    SessionClock clock_;
    std::ostream* to_;
    std::size_t place_ = 0;
};

}  // namespace cli
