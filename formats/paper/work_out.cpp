#include <algorithm>

#include "formats/paper/paper.h"

namespace outbye {

PaperParts work_out_parts(const RidePlan& plan, const KitCatalogue& catalogue, const std::vector<Sheet>& wanted,
                          const RoadGraph* roads, const std::function<LoadSearch()>& search) {
  PaperParts parts;
  const auto wants = [&wanted](Sheet sheet) { return std::find(wanted.begin(), wanted.end(), sheet) != wanted.end(); };
  const bool all_but_spotter = wants(Sheet::crew_book) || wants(Sheet::rider_card) || wants(Sheet::kit_list);
  if (wants(Sheet::crew_book) || wants(Sheet::rider_card)) {
    parts.jobs = jobs_of(plan);
    for (const StopJobs& stop : parts.jobs.stops) {
      if (stop.problem) parts.problems.push_back(*stop.problem);
    }
  }
  if (all_but_spotter || wants(Sheet::boot_plan)) {
    if (auto kit = plan_kit(plan, catalogue, roads)) {
      parts.kit = std::move(*kit);
    } else {
      parts.problems.push_back(kit.error());
    }
  }
  if (wants(Sheet::kit_list)) {
    if (auto stock = stock_of(plan)) {
      parts.stock = std::move(*stock);
    } else {
      parts.problems.push_back(stock.error());
    }
  }
  if (wants(Sheet::boot_plan) && parts.kit) {
    BootLoadSettings settings;
    settings.search = search;
    if (auto load = boot_load(plan, boot_items(parts.kit->list, plan.ride.cars), settings)) {
      parts.load = std::move(*load);
    } else {
      parts.problems.push_back(load.error());
    }
  }
  return parts;
}

PaperSources sources_of(const RidePlan& plan, const PaperParts& parts, const RoadGraph* roads) {
  return {plan,
          parts.jobs.stops.empty() ? nullptr : &parts.jobs,
          parts.kit ? &*parts.kit : nullptr,
          parts.stock ? &*parts.stock : nullptr,
          parts.load ? &*parts.load : nullptr,
          roads};
}

Result<std::vector<SheetFile>> sheet_files(const PaperSources& sources, const PaperSettings& settings) {
  std::vector<SheetFile> files;
  for (const Sheet sheet : all_sheets) {
    const bool lacks =
        (sheet == Sheet::kit_list && sources.kit == nullptr) || (sheet == Sheet::boot_plan && sources.load == nullptr);
    if (lacks || !fits_paper(sheet, settings.size)) continue;
    auto pdf = sheet_pdf(sheet, sources, settings);
    if (!pdf) return tl::make_unexpected(pdf.error());
    files.push_back({sheet, std::string(sheet_name(sheet)) + ".pdf", std::move(*pdf)});
  }
  return files;
}

}  // namespace outbye
