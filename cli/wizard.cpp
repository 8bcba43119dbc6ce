#include "cli/wizard.h"

#include <functional>
#include <iostream>
#include <string>

#include "cli/text_layout.h"
#include "core/base/text.h"
#include "formats/file_io/file_io.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

// Why an answer cannot be used; nothing when it can.
using Check = std::function<std::optional<std::string>(const std::string&)>;

class Wizard {
 public:
  explicit Wizard(Console& console) : console_(console) {}

  // The answer, or the default for an empty line. Sets `is_over()` when the input has ended.
  std::string ask(const std::string& question, const std::string& usual, const Check& check) {
    while (!is_over_) {
      console_.say_now(question + " [" + usual + "]: ");
      std::string line;
      if (!std::getline(std::cin, line)) {
        is_over_ = true;
        console_.say_now("\n");
        break;
      }
      std::string answer(trimmed(line));
      if (answer.empty()) answer = usual;
      const auto problem = check(answer);
      if (!problem) return answer;
      console_.say_now(wrapped(*problem, "  ! "));
    }
    return usual;
  }
  bool is_over() const { return is_over_; }

 private:
  Console& console_;
  bool is_over_{};
};

std::optional<std::string> anything(const std::string&) { return std::nullopt; }

Check readable_file(bool may_be_none) {
  return [may_be_none](const std::string& answer) -> std::optional<std::string> {
    if (answer == "none") {
      if (may_be_none) return std::nullopt;
      return "a course is needed: the GPX file of the organiser";
    }
    const auto read = read_whole_file(answer);
    if (read) return std::nullopt;
    return read.error().where + ": " + read.error().what;
  };
}

Check number_between(double above, double at_most) {
  return [above, at_most](const std::string& answer) -> std::optional<std::string> {
    const auto value = parse_decimal(answer);
    if (value && *value > above && *value <= at_most) return std::nullopt;
    return "give a number above " + fixed(above, 0) + " and at most " + fixed(at_most, 0);
  };
}

std::optional<std::string> a_time(const std::string& answer) {
  const auto written = parse_written_time(answer);
  if (written) return std::nullopt;
  return written.error().where + " " + written.error().what;
}

std::optional<std::string> a_zone(const std::string& answer) {
  if (answer == "where the course is") return std::nullopt;
  const auto clock = clock_for_zone(answer, Instant{});
  if (clock) return std::nullopt;
  return clock.error().where + " " + clock.error().what;
}

std::vector<std::string> names_in(const std::string& answer) {
  std::vector<std::string> names;
  std::size_t from = 0;
  while (from <= answer.size()) {
    const std::size_t end = std::min(answer.find(',', from), answer.size());
    const auto name = trimmed(std::string_view(answer).substr(from, end - from));
    if (!name.empty()) names.emplace_back(name);
    from = end + 1;
  }
  return names;
}

std::optional<std::string> some_names(const std::string& answer) {
  const auto names = names_in(answer);
  if (names.empty()) return "give at least one name; several with commas between";
  for (std::size_t i = 0; i < names.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (same_name(names[i], names[k])) return "'" + names[i] + "' is there twice; give each a name of its own";
    }
  }
  return std::nullopt;
}

std::optional<std::string> yes_or_no(const std::string& answer) {
  for (const char* word : {"yes", "y", "no", "n"}) {
    if (same_name(answer, word)) return std::nullopt;
  }
  return "answer yes or no";
}

}  // namespace

Result<NewRideAnswers> ask_for_ride(NewRideAnswers answers, Instant now, Console& console) {
  Wizard wizard(console);
  console.say_now("A new ride, step by step. Enter takes what stands in brackets.\n");
  answers.course_files = {wizard.ask("Course, a GPX file", "course.gpx", readable_file(false))};
  const auto optional_file = [&](const std::string& question, std::vector<std::string>& into) {
    if (!into.empty()) return;
    const std::string file = wizard.ask(question, "none", readable_file(true));
    if (file != "none") into = {file};
  };
  optional_file("Road map, an OpenStreetMap extract", answers.road_files);
  if (answers.road_files.empty() && !answers.drive_times_file) {
    const std::string file = wizard.ask("Drive times typed in by hand, a CSV file", "none", readable_file(true));
    if (file != "none") answers.drive_times_file = file;
  }
  optional_file("Heights, an SRTM tile (.hgt)", answers.elevation_files);
  if (!answers.name) {
    const std::string name = wizard.ask("Name of the ride", "of the course", anything);
    if (name != "of the course") answers.name = name;
  }
  if (!answers.start) answers.start = wizard.ask("Start", next_saturday(now), a_time);
  if (!answers.zone) {
    const std::string zone = wizard.ask("Time zone", "where the course is", a_zone);
    if (zone != "where the course is") answers.zone = zone;
  }
  if (!answers.speed) {
    answers.speed = KmPerHour{
        parse_decimal(wizard.ask("Average speed over a loop, km/h", "12", number_between(0, 60))).value_or(12.0)};
  }
  if (!answers.hold) {
    answers.hold = minutes(
        parse_decimal(wizard.ask("Hold at each vet gate, minutes", "40", number_between(-1e-9, 1440))).value_or(40.0));
  }
  if (answers.horses.empty())
    answers.horses = names_in(wizard.ask("Horse (several: with commas)", "Horse", some_names));
  if (answers.cars.empty()) answers.cars = names_in(wizard.ask("Crew car (several: with commas)", "Car 1", some_names));
  const std::string sure = wizard.ask("Write " + answers.out + "?", "yes", yes_or_no);
  if (wizard.is_over()) {
    return bad_input("outbye new",
                     "the answers ended before the questions; nothing was written. Without questions: "
                     "outbye new OUT.json --course FILE.gpx");
  }
  if (same_name(sure, "no") || same_name(sure, "n")) {
    return problem(Problem::Kind::cancelled, "outbye new", "stopped as you wished; nothing was written");
  }
  return answers;
}

}  // namespace outbye
