package org.mixaccord.intake;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import org.jboss.logging.Logger;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.StorageConfig;

/** Makes the decoder that the configuration asks for. */
@ApplicationScoped
class IntakeBeans {
  private static final Logger LOG = Logger.getLogger(IntakeBeans.class);

  @Produces
  @Singleton
  Ffmpeg ffmpeg(StorageConfig storage, IntakeConfig config) {
    Ffmpeg ffmpeg =
        Ffmpeg.unpack(
            storage.dataDir().toAbsolutePath().normalize().resolve("programs"),
            config.childTime(),
            config.childMemoryBytes());
    if (!ffmpeg.isLocked()) {
      LOG.warn(
          "The processes that decode uploads could read other files: “prlimit” of util-linux is"
              + " missing on this machine.");
    }
    return ffmpeg;
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
