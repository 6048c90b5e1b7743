using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Power;

/// <summary>How long storage lasts: uncompressed samples, headers left out of account.</summary>
public static class StorageTime
{
    /// <summary>Bytes a second.</summary>
    /// <param name="rateHertz">Sample rate, above 0.</param>
    /// <param name="wordBits">Bits of a sample, 8 to 64, stored in whole bytes.</param>
    /// <param name="channels">1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is out of range.</exception>
    public static double BytesPerSecond(double rateHertz, int wordBits, int channels)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wordBits, 8);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(wordBits, 64);
        ArgumentOutOfRangeException.ThrowIfLessThan(channels, 1);
        return Require.Positive(rateHertz) * ((wordBits + 7) / 8) * channels;
    }

    /// <summary>Hours on a number of gigabytes (10⁹ bytes).</summary>
    public static double Hours(double gigabytes, double rateHertz, int wordBits, int channels)
        => Require.NotNegative(gigabytes) * 1e9 / BytesPerSecond(rateHertz, wordBits, channels) / 3600;

    /// <summary>Hours on one gigabyte (10⁹ bytes).</summary>
    public static double HoursPerGigabyte(double rateHertz, int wordBits, int channels) => Hours(1, rateHertz, wordBits, channels);

    /// <summary>Seconds until a file is cut and the next begun, at a size in gibibytes (2³⁰ bytes).</summary>
    /// <returns>Null for a size of 0: never.</returns>
    public static double? SplitSeconds(double gibibytes, double rateHertz, int wordBits, int channels)
        => Require.NotNegative(gibibytes) == 0 ? null : gibibytes * 1024 * 1024 * 1024 / BytesPerSecond(rateHertz, wordBits, channels);
}
