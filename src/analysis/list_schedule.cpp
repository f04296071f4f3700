#include "list_schedule.hpp"

#include <functional>
#include <queue>
#include <utility>

namespace ligament {

namespace {

struct ListRun {
    const Rows& needed_by;
    std::span<const double> duration;
    std::span<const std::uint32_t> list;
    std::vector<std::uint32_t> waiting_for;  ///< by task: needs that are not met yet
    std::vector<std::uint32_t> place;        ///< by task: where it stands in the list
    std::vector<std::uint32_t> at_once;      ///< ready, and takes no time
    std::priority_queue<std::uint32_t, std::vector<std::uint32_t>, std::greater<>> ready;  ///< places
    using Ending = std::pair<double, std::uint32_t>;                                       ///< when, which task
    std::priority_queue<Ending, std::vector<Ending>, std::greater<>> running;

    void admit(std::uint32_t task) {
        if (duration[task] > 0)
            ready.push(place[task]);
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
                const std::uint32_t task = list[ready.top()];
                ready.pop();
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
    ListRun run{needed_by, duration, list, {}, std::vector<std::uint32_t>(needs.size(), none), {}, {}, {}};
    for (std::uint32_t i = 0; i < list.size(); ++i) run.place[list[i]] = i;
    run.waiting_for.reserve(needs.size());
    for (std::uint32_t task = 0; task < needs.size(); ++task)
        run.waiting_for.push_back(static_cast<std::uint32_t>(needs.of(task).size()));
    for (std::uint32_t task = 0; task < needs.size(); ++task)
        if (needs.of(task).empty()) {
            if (duration[task] > 0)
                run.ready.push(run.place[task]);
            else
                run.finish(task);
        }
    return run.run(workers);
}

}  // namespace ligament
