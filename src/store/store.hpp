#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "store/answer_log.hpp"
#include "store/crew.hpp"
#include "store/fit_record.hpp"
#include "store/log_part.hpp"

namespace store {

/// How a store is opened.
struct StoreOptions {
    std::string path;           ///< the database file
    bool writes = true;         ///< false: nothing is changed on disk, and the file has to be there
    Advance advance = nullptr;  ///< needed for states and rebuild
    base::Seed entropy = 0;     ///< for new ids
};

/// What record verify finds.
struct Verification {
    std::int64_t answers = 0;
    std::int64_t learners = 0;
    int schema = 0;
    std::vector<std::string> problems;  ///< empty: the store is sound
};

/// The shop's SQLite file: answer log, crew, and recall states derived from the log.
///
/// The log is the truth. Recall states are written behind it and carry the number of the last answer they include;
/// answers after that are folded in when states are read, so an answer is acknowledged after one small write.
///
/// Errors are thrown as base::Failure: no_input (no such file), bad_data (another program's file, a newer schema, a
/// damaged file), cannot_write (read-only), io_error (disk full or failing), busy (held by another process too long).
class Store final : public AnswerLog {
public:
    explicit Store(const StoreOptions& options);
    ~Store() override;

    AnswerRecord append(AnswerRecord record) override;
    [[nodiscard]] RecallStates states(const base::Id128& learner) override;
    /// This machine, as append() writes it into answers.
    [[nodiscard]] base::Id128 device() const;

    /// Adds many records that already have ids, in one transaction; ones that are there already are passed over.
    /// Gives how many were new.
    std::int64_t append_all(const std::vector<AnswerRecord>& records);
    /// Calls `each` for every answer, ordered by time asked and id.
    void for_each_answer(const std::function<void(const AnswerRecord&)>& each);
    [[nodiscard]] std::int64_t answer_count();

    /// Brings in what was kept elsewhere: the union of both logs by id, of both crews (crew_union.hpp), and of the
    /// points that have changed, of which the later change holds; then folds the recall states anew. All of it or, when
    /// this throws, gives faults or is broken off, nothing. The order in which parts come makes no difference to the
    /// log and the states, and a part that comes again adds nothing. Errors   an answer that has the id of another with
    /// other content, an answer of nobody in either crew; by line.
    [[nodiscard]] base::Checked<TakenIn> take_in(const LogPart& part);
    /// The same without writing.
    [[nodiscard]] base::Checked<TakenIn> would_take_in(const LogPart& part);

    Learner add_learner(Learner learner, base::Instant now);
    void update_learner(const Learner& learner);
    /// In order of name, the retired included.
    [[nodiscard]] std::vector<Learner> learners();

    /// Says of points that they have changed for a learner, and since when; `why` names the change. A point that was
    /// said to have changed for the same reason keeps its day. Gives how many were new.
    std::int64_t add_relearn(const base::Id128& learner, const std::vector<base::PointId>& points,
                             const std::string& why, base::Instant now);
    /// The points that have changed for a learner, and since when: due until they are answered after that.
    [[nodiscard]] std::unordered_map<base::PointId, base::Instant> relearn(const base::Id128& learner);

    /// Notes a run of the fit; when it was kept, its values take the place of the earlier ones, all or none.
    void save_fit(const FitRun& run, const std::vector<FittedValue>& values);
    /// Goes back to the shipped parameters: forgets all fitted values, and notes nothing.
    void drop_fit();
    /// The latest run, kept or not.
    [[nodiscard]] std::optional<FitRun> latest_fit();
    /// The values in force that hold for everyone or for this learner; none when nothing was fitted yet.
    [[nodiscard]] std::vector<FittedValue> fitted(const base::Id128& learner);

    /// Brings the written recall states up to the log, which spares later starts the folding.
    void settle();
    /// Throws the written recall states away and folds the whole log anew. Gives the number of answers folded.
    std::int64_t rebuild();

    [[nodiscard]] Verification verify();
    /// Writes a sound copy to another file, while others may go on using this one.
    void backup_to(const std::string& path);
    /// Brings all of the store into its one file, so that the file can be moved. Throws Failure (busy) while another
    /// process has the store open: its answers would follow the file, and be missed where it lay.
    void stand_alone();

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace store
