package org.mixaccord.storage;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FolderAudioStoreTest {
  private static final long PLENTY = 1L << 40;
  @TempDir Path folder;
  private final AtomicLong usable = new AtomicLong(PLENTY);
  private FolderAudioStore store;

  @BeforeEach
  void open() throws IOException {
    store = new FolderAudioStore(folder, 1000, usable::get);
  }

  @Test
  void bytesComeBackAsTheyCameUnderTheirHash() throws IOException {
    byte[] bytes = random(3_000_000);
    var stored = (Incoming.Stored) receive(bytes, UploadLimits.upTo(PLENTY));
    assertEquals(Sha256.of(digestOf(bytes)), stored.sha256());
    assertEquals(bytes.length, stored.bytes());
    assertFalse(stored.alreadyHere());
    Path file = store.find(stored.sha256()).orElseThrow();
    assertArrayEquals(bytes, Files.readAllBytes(file));
    assertEquals(
        folder.resolve("audio/" + stored.sha256().hex().substring(0, 2) + "/" + stored.sha256()),
        file);
    assertTrue(((Incoming.Stored) receive(bytes, UploadLimits.upTo(PLENTY))).alreadyHere());
    assertEquals(0, filesIn("incoming"));
    store.remove(stored.sha256());
    assertTrue(store.find(stored.sha256()).isEmpty());
  }

  @Test
  void knownHashOfAbc() throws IOException {
    // FIPS 180-2, appendix B.1
    var stored = (Incoming.Stored) receive("abc".getBytes(US_ASCII), UploadLimits.upTo(10));
    assertEquals(
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", stored.sha256().hex());
  }

  @Test
  void anUploadCutInTheMiddleLeavesNothing() throws IOException {
    InputStream breaks =
        new InputStream() {
          private int left = 700_000;

          @Override
          public int read() throws IOException {
            throw new IOException("connection reset");
          }

          @Override
          public int read(byte[] into, int at, int count) throws IOException {
            if (left <= 0) {
              throw new IOException("connection reset");
            }
            int some = Math.min(count, left);
            left -= some;
            return some;
          }
        };
    assertEquals(
        Incoming.Reason.CUT_OFF, refused(store.receive(breaks, UploadLimits.upTo(PLENTY))));
    assertNothingKept();
  }

  @Test
  void fewerBytesThanAnnouncedCountAsCut() throws IOException {
    var limits = new UploadLimits(PLENTY, OptionalLong.of(1001));
    assertEquals(Incoming.Reason.CUT_OFF, refused(receive(random(1000), limits)));
    assertNothingKept();
  }

  @Test
  void emptyIsSaid() throws IOException {
    assertEquals(Incoming.Reason.EMPTY, refused(receive(new byte[0], UploadLimits.upTo(10))));
    assertNothingKept();
  }

  @Test
  void exactlyTheLimitIsTakenAndOneMoreIsNot() throws IOException {
    assertTrue(receive(random(500_000), UploadLimits.upTo(500_000)) instanceof Incoming.Stored);
    assertEquals(
        Incoming.Reason.TOO_LARGE, refused(receive(random(500_001), UploadLimits.upTo(500_000))));
    assertEquals(0, filesIn("incoming"));
  }

  @Test
  void anAnnouncedLengthOverTheLimitIsRefusedUnread() throws IOException {
    InputStream unread =
        new InputStream() {
          @Override
          public int read() {
            throw new AssertionError("read");
          }
        };
    var limits = new UploadLimits(10, OptionalLong.of(11));
    assertEquals(Incoming.Reason.TOO_LARGE, refused(store.receive(unread, limits)));
    usable.set(1500);
    var large = new UploadLimits(PLENTY, OptionalLong.of(501));
    assertEquals(Incoming.Reason.DISK_FULL, refused(store.receive(unread, large)));
  }

  @Test
  void theReserveIsNeverTouchedAlsoWhenNoLengthIsAnnounced() throws IOException {
    usable.set(1000 + 600_000);
    assertEquals(
        Incoming.Reason.DISK_FULL,
        refused(store.receive(filling(random(900_000)), UploadLimits.upTo(PLENTY))));
    assertNothingKept();
    usable.set(PLENTY);
    assertTrue(receive(random(900_000), UploadLimits.upTo(PLENTY)) instanceof Incoming.Stored);
  }

  @Test
  void aDiskThatFillsUpMeanwhileIsNoticed() throws IOException {
    usable.set(1000 + (30L << 20));
    assertEquals(
        Incoming.Reason.DISK_FULL,
        refused(store.receive(filling(random(40 << 20)), UploadLimits.upTo(PLENTY))));
    assertNothingKept();
  }

  @Test
  void leftoversOfACrashAreSweptAtStart() throws IOException {
    Files.write(folder.resolve("incoming/upload1.part"), random(100));
    var derived = new DerivedFiles(folder, 0);
    Files.write(derived.unfinished("pcm"), random(100));
    new FolderAudioStore(folder, 1000, usable::get);
    new DerivedFiles(folder, 0);
    assertEquals(0, filesIn("incoming"));
    assertEquals(0, filesIn("unfinished"));
  }

  @Test
  void aNameThatIsNoHashNeverBecomesAPath() {
    assertThrows(IllegalArgumentException.class, () -> new Sha256("../../etc/passwd"));
    assertThrows(IllegalArgumentException.class, () -> new Sha256("AB".repeat(32)));
  }

  @Test
  void derivedFilesAreRemovedTogetherAndOthersStay() throws IOException {
    var derived = new DerivedFiles(folder, 0);
    var one = Sha256.of(digestOf(new byte[] {1}));
    var two = Sha256.of(digestOf(new byte[] {2}));
    for (Sha256 sha : new Sha256[] {one, two}) {
      for (Path target :
          new Path[] {
            derived.pcm(sha, "f32"), derived.track(sha, 3), derived.listening(sha).resolve("0.flac")
          }) {
        derived.publish(Files.write(derived.unfinished("x"), random(10)), target);
      }
    }
    derived.remove(one);
    assertFalse(Files.exists(derived.pcm(one, "f32")));
    assertFalse(Files.exists(derived.track(one, 3)));
    assertFalse(Files.exists(derived.listening(one)));
    assertTrue(Files.exists(derived.pcm(two, "f32")));
    assertTrue(Files.exists(derived.track(two, 3)));
    assertTrue(Files.exists(derived.listening(two).resolve("0.flac")));
  }

  /** A body whose bytes take up the room on the disk as they are read. */
  private InputStream filling(byte[] bytes) {
    return new ByteArrayInputStream(bytes) {
      @Override
      public int read(byte[] into) {
        int count = super.read(into, 0, into.length);
        usable.addAndGet(-Math.max(0, count));
        return count;
      }
    };
  }

  private Incoming receive(byte[] bytes, UploadLimits limits) throws IOException {
    return store.receive(new ByteArrayInputStream(bytes), limits);
  }

  private static Incoming.Reason refused(Incoming incoming) {
    return ((Incoming.Refused) incoming).reason();
  }

  private void assertNothingKept() throws IOException {
    assertEquals(0, filesIn("incoming"));
    assertEquals(0, filesIn("audio"));
  }

  private long filesIn(String name) throws IOException {
    try (var files = Files.walk(folder.resolve(name))) {
      return files.filter(Files::isRegularFile).count();
    }
  }

  private static java.security.MessageDigest digestOf(byte[] bytes) {
    var digest = Sha256.digest();
    digest.update(bytes);
    return digest;
  }

  private static byte[] random(int count) {
    byte[] bytes = new byte[count];
    new Random(count).nextBytes(bytes);
    return bytes;
  }
}
