package org.mixaccord.songs;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Converter;
import java.util.Locale;

/** Keeps enumerations in the database under their names on the wire. */
final class Converters {
  private Converters() {}

  @Converter
  static class Kind implements AttributeConverter<BounceKind, String> {
    @Override
    public String convertToDatabaseColumn(BounceKind kind) {
      return kind.wire();
    }

    @Override
    public BounceKind convertToEntityAttribute(String column) {
      return BounceKind.of(column);
    }
  }

  @Converter
  static class State implements AttributeConverter<AudioState, String> {
    @Override
    public String convertToDatabaseColumn(AudioState state) {
      return state.wire();
    }

    @Override
    public AudioState convertToEntityAttribute(String column) {
      return AudioState.valueOf(column.toUpperCase(Locale.ROOT));
    }
  }
}
