#include "cli/memory/crew_log.hpp"

namespace cli {

practice::CrewLogReader read_crew_log(const content::Library& library, store::Store& store, base::Instant now,
                                      const std::function<void(const store::AnswerRecord&)>& also) {
    practice::CrewLogReader reader{library, now};
    store.for_each_answer([&](const store::AnswerRecord& record) {
        reader.add(record);
        if (also) also(record);
    });
    return reader;
}

}  // namespace cli
