#include "formats/plan_json/cautions.h"

#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

void add_once(std::vector<std::string>& lines, const std::string& line) {
  if (!line.empty() && std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
}

void heat_along(Paper& paper, const RidePlan& plan) {
  for (std::uint32_t h = 0; h < plan.welfare.along.size(); ++h) {
    if (plan.welfare.along[h].empty()) continue;
    paper.heading(2, "Heat along the course, " + horse_in_words(plan, HorseId{h}));
    Table table;
    const std::size_t sets = paper.width() > 400 ? 2 : 1;
    for (std::size_t i = 0; i < sets; ++i) {
      table.columns.insert(table.columns.end(), {{"Loop", true, TextAlign::end},
                                                 {"km", true, TextAlign::end},
                                                 {"At", true},
                                                 {"WBGT", true, TextAlign::end},
                                                 {"Band", false}});
    }
    const auto& points = plan.welfare.along[h];
    const std::size_t rows = (points.size() + sets - 1) / sets;
    for (std::size_t r = 0; r < rows; ++r) {
      std::vector<TableCell> row;
      for (std::size_t i = 0; i < sets && i * rows + r < points.size(); ++i) {
        const CourseHeat& point = points[i * rows + r];
        row.insert(row.end(), {std::to_string(point.loop.value + 1), fixed(in_kilometres(point.along), 1),
                               time_words(point.at, plan), fixed(point.load.wbgt.value, 1) + " \u00b0C",
                               advice(point.load.band).name});
      }
      table.rows.push_back(std::move(row));
    }
    paper.table(table);
  }
}

}  // namespace

void cautions(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  paper.heading(1, "Cautions");
  paper.list(crew_cautions());

  std::vector<std::string> how, mind;
  for (const PassWelfare& pass : plan.welfare.passes) {
    for (const auto line : pass.drink.advice) add_once(how, std::string(line));
    for (const auto& line : pass.cooling.how) add_once(how, line);
    for (const auto& line : pass.cooling.cautions) add_once(mind, line);
  }
  for (const HorseDayWater& day : plan.welfare.horses) {
    for (const auto& line : day.salts.cautions) add_once(mind, line);
  }
  if (plan.welfare.crew_heat) {
    for (const auto& line : plan.welfare.crew_heat->sentences) add_once(mind, line);
    if (plan.welfare.crew_heat_at) {
      add_once(mind, "It is warmest for the crew at " + time_words(*plan.welfare.crew_heat_at, plan) + ".");
    }
  }
  if (!how.empty()) paper.heading(2, "Drinking and cooling: how");
  paper.list(how);
  if (!mind.empty()) paper.heading(2, "Drinking, salts and heat: cautions");
  paper.list(mind, "!");

  if (!plan.rule_findings.empty()) {
    paper.heading(2, "Rules: " + (plan.rules ? plan.rules->book_name + ", " + plan.rules->level.name : std::string()));
    for (const RuleFinding& finding : plan.rule_findings) {
      const char* word = finding.severity == RuleFinding::Severity::breaks ? "Breaks"
                         : finding.severity == RuleFinding::Severity::asks ? "Ask"
                                                                           : "Note";
      paper.text(std::string(word) + ", " + finding.where + ": " + finding.what);
    }
  }
  heat_along(paper, plan);
  Warnings warnings = plan.warnings;
  for (const Warning& warning : plan.plan.warnings) {
    if (std::find(warnings.begin(), warnings.end(), warning) == warnings.end()) warnings.push_back(warning);
  }
  if (!warnings.empty()) {
    paper.heading(2, "Warnings");
    std::vector<std::string> lines;
    for (const Warning& warning : warnings) lines.push_back(warning.where + ": " + warning.what);
    paper.list(lines);
  }
  if (!plan.assumptions.empty()) {
    paper.heading(2, "Taken for granted");
    paper.list(plan.assumptions);
  }
}

}  // namespace outbye
