package org.mixaccord.demo.music;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.OutputStream;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

/** The demo's audio is the same bytes on every machine: its hash is fixed here. */
class SameEverywhereTest {
  private static String hash(DemoAudio audio) throws IOException {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      try (OutputStream out = new DigestOutputStream(OutputStream.nullOutputStream(), digest)) {
        audio.writeTo(out);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void firstSongIsTheSameBytesEverywhere() throws IOException {
    assertEquals(
        "6a1a6c2f8f0f209dc6db3497c6e894043e52b51af4e521b57814ab910c219851",
        hash(DemoSongs.first().mix(1)));
  }

  @Test
  void secondSongIsTheSameBytesEverywhere() throws IOException {
    assertEquals(
        "7e9d05f5d27fcda747a1761f8113b241d73e6086db47c6add88f216019705f04",
        hash(DemoSongs.second().mix(1)));
  }
}
