// Each sheet, and the parts that sheets are put together from. Internal to formats/paper.
#pragma once

#include "formats/paper/page.h"
#include "formats/paper/paper.h"

namespace outbye {

void crew_book(Paper& paper, const PaperSources& from);
void rider_card(Paper& paper, const PaperSources& from);
void kit_list(Paper& paper, const PaperSources& from);
void boot_plan(Paper& paper, const PaperSources& from);
void spotter_sheet(Paper& paper, const PaperSources& from);

// Pieces of the crew book.
void day_at_a_glance(Paper& paper, const PaperSources& from);
void meet_block(Paper& paper, const PaperSources& from, std::size_t day, std::size_t stop);
void gate_pages(Paper& paper, const PaperSources& from);
void emergency_page(Paper& paper, const PaperSources& from);
void every_pass(Paper& paper, const PaperSources& from);
void cautions(Paper& paper, const PaperSources& from);

// Clock time to the right, kilometres of the ride upwards, in black and grey.
void time_distance_chart(Paper& paper, const RidePlan& plan, const Box& box);
// The drive into a stop, north up; `roads` may be null.
void drive_map(Paper& paper, const RidePlan& plan, const Route& route, const TimedStop& stop, const RoadGraph* roads,
               const Box& box);

// The whole sheet, laid out; sheet_pdf() writes it. Errors as sheet_pdf().
Result<Paper> lay_out(Sheet sheet, const PaperSources& from, const PaperSettings& settings);

// "Ride, horse, date, start": what each sheet begins with.
void sheet_title(Paper& paper, const RidePlan& plan, const std::string& sheet);

inline constexpr const char* tick_box = "\u25a1";

}  // namespace outbye
