#include "server/storage/sqlite_store.h"

#include <gtest/gtest.h>

#include "server/storage/database.h"
#include "server/storage/migrations.h"
#include "server/storage/store_for_test.h"

namespace outbye {
namespace {

const RideText plain{R"({"name":"Hollin Dale","start":"2026-06-13T07:00:00+01:00"})", "{}"};
const RideText changed{R"({"name":"Hollin Dale","note":"<b>ford</b>"})", R"({"loops[0].speed_kmh":"12,"})"};

struct Stored : ::testing::Test {
  test::StoreFolder folder;
  OpenStore open{test::open_for_test(folder.path())};
  Store& store{*open.store};

  void reopen() {
    open.store.reset();
    open = test::open_for_test(folder.path());
  }
  static RideFile file(const std::string& name, const std::string& hash) { return {name, "course", 5, "", hash}; }
};

TEST_F(Stored, RidesAreListedByTheirLastChange) {
  const auto first = *store.make_ride(plain, "made");
  const auto second = *store.make_ride(plain, "made");
  ASSERT_TRUE(*store.save_ride(first, 1, changed, ""));
  const auto rides = *store.rides();
  ASSERT_EQ(rides.size(), 2u);
  EXPECT_EQ(rides[0].id, first);
  EXPECT_EQ(rides[1].id, second);
  EXPECT_EQ(rides[1].name, "Hollin Dale");
  EXPECT_EQ(rides[1].start, "2026-06-13T07:00:00+01:00");
}

TEST_F(Stored, EveryStateCanBeHadBack) {
  const auto ride = *store.make_ride(plain, "made");
  ASSERT_TRUE(*store.save_ride(ride, 1, changed, "a note"));
  EXPECT_EQ(store.state(ride, 1)->text.document, plain.document);
  const auto back = store.restore_state(ride, 1);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->revision, 3u);
  EXPECT_EQ(back->text.document, plain.document);
  EXPECT_EQ(store.state(ride, 2)->text.drafts, changed.drafts);
  EXPECT_EQ(store.states(ride, 0, 10)->size(), 3u);
  EXPECT_EQ(store.states(ride, 3, 10)->front().label, "a note");
}

TEST_F(Stored, ASaveOnTopOfAnOldStateIsRefusedWithWhatIsStored) {
  const auto ride = *store.make_ride(plain, "made");
  ASSERT_TRUE(*store.save_ride(ride, 1, changed, "the first tab"));
  const auto late = store.save_ride(ride, 1, plain, "the second tab");
  ASSERT_TRUE(late);
  ASSERT_FALSE(*late);
  EXPECT_EQ(late->error().stored.revision, 2u);
  EXPECT_EQ(late->error().stored.text.document, changed.document);
  EXPECT_EQ(store.states(ride, 0, 10)->size(), 2u);
}

TEST_F(Stored, ARemovedRideIsKept) {
  const auto ride = *store.make_ride(plain, "made");
  ASSERT_TRUE(store.set_removed(ride, true));
  EXPECT_TRUE(store.ride(ride)->is_removed);
  ASSERT_TRUE(store.set_removed(ride, false));
  EXPECT_FALSE(store.ride(ride)->is_removed);
  EXPECT_EQ(store.set_removed("r0", true).error().front().kind, Trouble::Kind::not_found);
}

TEST_F(Stored, ACopyHasTheFilesOfTheFirstAndALifeOfItsOwn) {
  const auto ride = *store.make_ride(plain, "made");
  ASSERT_TRUE(store.add_file(ride, file("course.gpx", "a")));
  const auto copy = *store.copy_ride(ride, changed);
  ASSERT_TRUE(store.remove_file(ride, "course.gpx"));
  ASSERT_EQ(store.files(copy)->size(), 1u);
  EXPECT_EQ(store.files(copy)->front().hash, "a");
  EXPECT_TRUE(store.files(ride)->empty());
}

TEST_F(Stored, AnEarlierStateBringsItsFilesBack) {
  const auto ride = *store.make_ride(plain, "made");
  ASSERT_TRUE(store.add_file(ride, file("course.gpx", "old")));
  ASSERT_TRUE(store.add_file(ride, file("gone.gpx", "gone")));
  ASSERT_TRUE(*store.save_ride(ride, 1, changed, ""));
  ASSERT_TRUE(store.add_file(ride, file("course.gpx", "new")));
  ASSERT_TRUE(*store.save_ride(ride, 2, changed, ""));
  ASSERT_TRUE(store.remove_file(ride, "gone.gpx"));
  ASSERT_TRUE(store.restore_state(ride, 1));
  EXPECT_EQ(store.file(ride, "course.gpx")->hash, "old");
  EXPECT_EQ(store.file(ride, "gone.gpx")->hash, "gone");
  ASSERT_TRUE(store.restore_state(ride, 3));
  EXPECT_EQ(store.file(ride, "course.gpx")->hash, "new");
}

TEST_F(Stored, TextIsKeptToTheByte) {
  const RideText odd{R"({"name":"'; DROP TABLE ride; --","x":"\u0000 \" <script>"})", "{}"};
  const auto ride = *store.make_ride(odd, "made");
  reopen();
  EXPECT_EQ(open.store->newest_state(ride)->text.document, odd.document);
}

TEST_F(Stored, KeepsakesAreKeptWithTheirRevision) {
  Keepsake horse{"k1", "horse", "Juno", 0, R"({"mass_kg":430})"};
  EXPECT_EQ(*store.keep(horse, std::nullopt), 1u);
  EXPECT_EQ(*store.keep(horse, 1), 2u);
  EXPECT_EQ(store.keep(horse, 1).error().front().kind, Trouble::Kind::conflict);
  EXPECT_EQ(store.keepsakes()->front().revision, 2u);
  ASSERT_TRUE(store.remove_keepsake("k1"));
  EXPECT_TRUE(store.keepsakes()->empty());
}

TEST_F(Stored, OneProgramAtATimeHasTheStore) {
  const auto second = open_store(folder.path(), [] { return Instant{}; });
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().front().kind, Trouble::Kind::conflict);
}

TEST_F(Stored, AStoreOfANewerOutbyeIsLeftAlone) {
  open.store.reset();
  {
    auto database = Database::open((folder.path() / "outbye.sqlite").string());
    ASSERT_TRUE(database->run("PRAGMA user_version = 99"));
  }
  const auto refused = open_store(folder.path(), [] { return Instant{}; });
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().front().what.find("newer outbye"), std::string::npos);
}

// The disk is full as far as SQLite knows.
TEST(FullDisk, LeavesWhatWasSavedAndNothingHalfWritten) {
  test::StoreFolder folder;
  auto database = Database::open((folder.path() / "x.sqlite").string());
  ASSERT_TRUE(database && migrate(*database));
  ASSERT_TRUE(database->run("CREATE TABLE filler (x TEXT)"));
  ASSERT_TRUE(database->run("PRAGMA max_page_count = 60"));
  Answer<void> full;
  int rows = 0;
  for (; full && rows < 1000; ++rows) {
    full = database->whole<void>([&]() -> Answer<void> {
      if (auto ok = database->run("INSERT INTO filler VALUES ('half')"); !ok) return ok;
      return database->run("INSERT INTO filler VALUES (hex(zeroblob(4000)))");
    });
  }
  ASSERT_FALSE(full);
  EXPECT_EQ(full.error().front().kind, Trouble::Kind::storage);
  EXPECT_NE(full.error().front().what.find("free some space"), std::string::npos);
  Statement count = database->sql("SELECT count(*) FROM filler");
  ASSERT_TRUE(count.next());
  EXPECT_EQ(count.number(0), 2u * static_cast<unsigned>(rows - 1));
}

}  // namespace
}  // namespace outbye
