package org.mixaccord.intake;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.StorageConfig;

/** Makes the decoder that the configuration asks for. */
@ApplicationScoped
class IntakeBeans {
  @Produces
  @Singleton
  Ffmpeg ffmpeg(StorageConfig storage, IntakeConfig config) {
    return Ffmpeg.unpack(
        storage.dataDir().toAbsolutePath().normalize().resolve("programs"),
        config.childTime(),
        config.childMemoryBytes());
  }

  @Produces
  @Singleton
  Decoder decoder(Ffmpeg ffmpeg, DerivedFiles derived, IntakeConfig config) {
    return new Decoder(ffmpeg, derived, config.maxDecodedBytes());
  }

  @Produces
  @Singleton
  ListeningCopy listeningCopy(Ffmpeg ffmpeg, Decoder decoder, DerivedFiles derived) {
    return new ListeningCopy(ffmpeg, decoder, derived);
  }
}
