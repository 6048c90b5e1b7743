using Athwart.Microphones.Air;
using CsCheck;

namespace Athwart.Microphones.Tests.Air;

public static class SoundPathTests
{
    // Source: ISO 9613-2:1996, equation 7, quoted: 51.0 dB at 100 m.
    [Fact]
    public static void Iso9613Part2_DivergenceAt100Metres_Is51()
        => Assert.Equal(51.0, SoundPath.DivergenceDecibels(100), 0.05);

    // Source: the same equation; 6.02 dB for each doubling.
    [Fact]
    public static void TwiceTheDistance_Is6Point02Less()
        => Assert.Equal(80 - 6.02, SoundPath.LevelDecibels(80, 3, 6), 0.005);

    // 20 °C, 50 %, exact 1 kHz: 4.66 dB/km by ISO 9613-1 Table 1.
    [Fact]
    public static void OneKilometreOfAir_TakesItsDecibelsBesideTheSpreading()
        => Assert.Equal(100 - 60 - (4.66 * 0.999), SoundPath.LevelDecibels(100, 1, 1000, AirConditions.Mild, 1000), 0.0055);

    [Fact]
    public static void FurtherAway_IsNeverLouder()
        => Gen.Select(Gen.Double[0.1, 1000], Gen.Double[1, 10], Gen.Double[0, 100_000]).Sample((metres, ratio, hertz)
            => SoundPath.LevelDecibels(100, 1, metres * ratio, AirConditions.Mild, hertz) <= SoundPath.LevelDecibels(100, 1, metres, AirConditions.Mild, hertz) + 1e-9);

    [Fact]
    public static void ThereAndBack_IsTheSameLevel()
        => Gen.Select(Gen.Double[0.1, 1000], Gen.Double[0.1, 1000], Gen.Double[0, 100_000]).Sample((near, far, hertz)
            => Math.Abs(SoundPath.LevelDecibels(SoundPath.LevelDecibels(70, near, far, AirConditions.Mild, hertz), far, near, AirConditions.Mild, hertz) - 70) < 1e-6);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public static void DistanceThatIsNone_IsRefused(double metres)
        => Assert.Throws<ArgumentOutOfRangeException>(() => SoundPath.LevelDecibels(80, 1, metres));
}
