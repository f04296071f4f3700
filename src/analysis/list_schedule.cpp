#include "list_schedule.hpp"

#include <algorithm>
#include <bit>
#include <functional>
#include <queue>
#include <utility>

namespace ligament {

namespace {

/// Numbers below a limit, of which the smallest is found quickly: bits, and above each 64 words of them one bit a word.
class SmallestFirst {
  public:
    explicit SmallestFirst(std::size_t limit) {
        do {
            limit = (limit + 63) / 64;
            tiers_.emplace_back(std::max<std::size_t>(limit, 1), 0);
        } while (limit > 1);
    }
    bool empty() const { return tiers_.back().front() == 0; }
    void insert(std::size_t number) {
        for (std::vector<std::uint64_t>& tier : tiers_) {
            tier[number / 64] |= std::uint64_t{1} << number % 64;
            number /= 64;
        }
    }
    std::uint32_t take_smallest() {
        std::size_t number = 0;
        for (std::size_t t = tiers_.size(); t-- > 0;)
            number = number * 64 + static_cast<std::size_t>(std::countr_zero(tiers_[t][number]));
        const auto smallest = static_cast<std::uint32_t>(number);
        for (std::vector<std::uint64_t>& tier : tiers_) {
            tier[number / 64] &= ~(std::uint64_t{1} << number % 64);
            if (tier[number / 64] != 0) break;
            number /= 64;
        }
        return smallest;
    }

  private:
    std::vector<std::vector<std::uint64_t>> tiers_;
};

struct ListRun {
    const Rows& needed_by;
    std::span<const double> duration;
    std::span<const std::uint32_t> list;
    std::vector<std::uint32_t> waiting_for;           ///< by task: needs that are not met yet
    std::vector<std::uint32_t> place;                 ///< by task: where it stands in the list
    std::vector<std::uint32_t> at_once;               ///< ready, and takes no time
    SmallestFirst ready;                              ///< places
    using Ending = std::pair<double, std::uint32_t>;  ///< when, which task
    std::priority_queue<Ending, std::vector<Ending>, std::greater<>> running;

    void admit(std::uint32_t task) {
        if (duration[task] > 0)
            ready.insert(place[task]);
        else
            at_once.push_back(task);
    }

    void finish(std::uint32_t task) {
        at_once.push_back(task);
        while (!at_once.empty()) {
            const std::uint32_t done = at_once.back();
            at_once.pop_back();
            for (std::uint32_t after : needed_by.of(done))
                if (--waiting_for[after] == 0) admit(after);
        }
    }

    ListTime run(std::uint32_t workers) {
        ListTime result;
        while (true) {
            while (!ready.empty() && running.size() < workers) {
                const std::uint32_t task = list[ready.take_smallest()];
                running.emplace(result.time + duration[task], task);
            }
            result.any_waited = result.any_waited || !ready.empty();
            if (running.empty()) return result;
            result.time = running.top().first;
            while (!running.empty() && running.top().first <= result.time) {
                const std::uint32_t task = running.top().second;
                running.pop();
                finish(task);
            }
        }
    }
};

}  // namespace

ListTime find_list_time(const Rows& needs, const Rows& needed_by, std::span<const double> duration,
                        std::span<const std::uint32_t> list, std::uint32_t workers) {
    ListRun run{needed_by, duration, list, {}, std::vector<std::uint32_t>(needs.size(), none), {}, SmallestFirst(list.size()),
                {}};
    for (std::uint32_t i = 0; i < list.size(); ++i) run.place[list[i]] = i;
    run.waiting_for.reserve(needs.size());
    for (std::uint32_t task = 0; task < needs.size(); ++task)
        run.waiting_for.push_back(static_cast<std::uint32_t>(needs.of(task).size()));
    for (std::uint32_t task = 0; task < needs.size(); ++task)
        if (needs.of(task).empty()) {
            if (duration[task] > 0)
                run.ready.insert(run.place[task]);
            else
                run.finish(task);
        }
    return run.run(workers);
}

}  // namespace ligament
