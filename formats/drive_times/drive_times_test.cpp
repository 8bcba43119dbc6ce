#include "formats/drive_times/drive_times.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

double min_between(const DriveTable& table, std::uint32_t from, std::uint32_t to) {
  const auto& drive = table.drive(PlaceId{from}, PlaceId{to});
  return drive ? in_minutes(drive->time) : -1;
}

DriveTable read(std::string_view text) {
  const auto table = read_drive_times(text, "drives.csv");
  EXPECT_TRUE(table) << (table ? "" : table.error().where + " " + table.error().what);
  return table.value_or(DriveTable{});
}

TEST(DriveTimesList, HoldsBothWaysUnlessTheOtherWayIsGiven) {
  const DriveTable table = read("Venue,CP1,12,8.4\nCP1,CP2,7.5\nCP2,CP1,9\n");
  ASSERT_EQ(table.places(), (std::vector<std::string>{"Venue", "CP1", "CP2"}));
  EXPECT_DOUBLE_EQ(min_between(table, 0, 1), 12);
  EXPECT_DOUBLE_EQ(min_between(table, 1, 0), 12);
  EXPECT_DOUBLE_EQ(table.drive(PlaceId{1}, PlaceId{0})->length.value, 8400);
  EXPECT_DOUBLE_EQ(min_between(table, 1, 2), 7.5);
  EXPECT_DOUBLE_EQ(min_between(table, 2, 1), 9);
  EXPECT_EQ(min_between(table, 0, 2), -1);
  EXPECT_EQ(min_between(table, 0, 0), 0);
}

TEST(DriveTimesList, MayHaveAHeadingCommentsQuotesAndHours) {
  const DriveTable table = read(
      "\xef\xbb\xbf# typed on Friday\r\nFrom;To;Minutes;km\r\n\r\n\"Mill; the old one\";\"The \"\"Barn\"\"\";1:05;40,5 "
      "km\r\n");
  ASSERT_EQ(table.places(), (std::vector<std::string>{"Mill; the old one", "The \"Barn\""}));
  EXPECT_DOUBLE_EQ(min_between(table, 0, 1), 65);
  EXPECT_DOUBLE_EQ(table.drive(PlaceId{0}, PlaceId{1})->length.value, 40500);
}

TEST(DriveTimesList, TakesADecimalCommaWhereTheSeparatorIsNoComma) {
  EXPECT_DOUBLE_EQ(min_between(read("a;b;7,5"), 0, 1), 7.5);
  EXPECT_DOUBLE_EQ(min_between(read("a\tb\t7,5"), 0, 1), 7.5);
  EXPECT_DOUBLE_EQ(min_between(read("a, b, 7.5 min"), 0, 1), 7.5);
}

TEST(DriveTimesMatrix, HasTheStartInTheRow) {
  const DriveTable table = read(",Venue,CP1,CP2\nVenue,0,12,-\nCP1,14,,7\nCP2,,1:10,0\n");
  ASSERT_EQ(table.size(), 3U);
  EXPECT_DOUBLE_EQ(min_between(table, 0, 1), 12);
  EXPECT_DOUBLE_EQ(min_between(table, 1, 0), 14);
  EXPECT_DOUBLE_EQ(min_between(table, 2, 1), 70);
  EXPECT_EQ(min_between(table, 0, 2), -1);
  EXPECT_EQ(min_between(table, 2, 0), -1);
}

TEST(DriveTimesMatrix, MayNameItsCornerAndListRowsInAnyOrder) {
  const DriveTable table = read("minutes;A;B\nB;3;\nA;;4\n");
  EXPECT_DOUBLE_EQ(min_between(table, 0, 1), 4);
  EXPECT_DOUBLE_EQ(min_between(table, 1, 0), 3);
}

TEST(DriveTimes, SayWhichLineIsWrongAndWhatToWrite) {
  struct Bad {
    std::string text, where, what;
  };
  const std::vector<Bad> rows{{"", "drives.csv", "no drive times"},
                              {"# nothing\n\n", "drives.csv", "no drive times"},
                              {"from,to,minutes\n", "drives.csv", "heading but no drive times"},
                              {"a,b,12\nb,c\n", "line 2", "has 2 values; write from, to, minutes"},
                              {"a,b,12\n\nb,c,soon\n", "line 3", "\"soon\" where a drive time belongs"},
                              {"a,b,0\n", "line 1", "more than 0 minutes"},
                              {"a,b,-5\n", "line 1", "more than 0 minutes"},
                              {"a,b,1e9\n", "line 1", "more than 24 hours"},
                              {"a,b,1:75\n", "line 1", "h:mm"},
                              {"a,a,5\n", "line 1", "to itself"},
                              {"a,,5\n", "line 1", "lacks the name"},
                              {"a,b,5\na,b,6\n", "line 2", "again (first in line 1)"},
                              {"a,b,5,far\n", "line 1", "where kilometres belong"},
                              {"a,b,5,6,7\n", "line 1", "5 values"},
                              {"a,\"b,5\n", "line 1", "never closed"},
                              {"a,\"b\"c,5\n", "line 1", "after a closing quotation mark"},
                              {",A,B\nA,,4\nBee,3,\n", "line 3", "did you mean B?"},
                              {",A,B\nA,,4\nA,,3\n", "line 3", "second row for A"},
                              {",A,B\nA,,4\n", "drives.csv", "column for B but no row"},
                              {",A,A\nA,,4\n", "line 1", "names A twice"},
                              {",A,B\nA,,x\nB,3,\n", "line 2, column 3", "\"x\" where a drive time belongs"},
                              {",A,B\nA,5,4\nB,3,\n", "line 2", "from A to itself"},
                              {",A,B\nA,,4,9\nB,3,\n", "line 2", "3 values for 2 places"},
                              {std::string("PK\0\3", 4), "drives.csv", "not a text file"}};
  for (const Bad& bad : rows) {
    const auto table = read_drive_times(bad.text, "drives.csv");
    ASSERT_FALSE(table) << bad.text;
    EXPECT_NE(table.error().where.find(bad.where), std::string::npos) << bad.text << " -> " << table.error().where;
    EXPECT_NE(table.error().what.find(bad.what), std::string::npos) << bad.text << " -> " << table.error().what;
  }
}

TEST(DriveTimes, NeverFallOverOnOddBytes) {
  const std::string seed = "a;\"b\";7,5\n#x\n,,\"\n1:0;:;\r\t-";
  for (std::size_t from = 0; from < seed.size(); ++from)
    for (std::size_t size = 0; from + size <= seed.size(); ++size) {
      const auto table = read_drive_times(std::string_view(seed).substr(from, size), "f");
      if (!table) {
        EXPECT_FALSE(table.error().what.empty());
      }
    }
}

}  // namespace
}  // namespace outbye
