using Athwart.Microphones.Rigs;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class CapsuleDelayTests
{
    // Spacing table: derived, t = d/343.2 (ISO 9613-1 at 20 °C), as printed.
    [Theory]
    [InlineData(1, 29.1, 1.285, 1.399, 2.797, 17160)]
    [InlineData(2, 58.3, 2.570, 2.797, 5.594, 8580)]
    [InlineData(3, 87.4, 3.855, 4.196, 8.392, 5720)]
    [InlineData(5, 145.7, 6.425, 6.993, 13.986, 3432)]
    [InlineData(10, 291.4, 12.850, 13.986, 27.972, 1716)]
    [InlineData(17, 495.3, 21.844, 23.776, 47.552, 1009)]
    [InlineData(20, 582.8, 25.699, 27.972, 55.944, 858)]
    [InlineData(30, 874.1, 38.549, 41.958, 83.916, 572)]
    [InlineData(50, 1456.9, 64.248, 69.930, 139.860, 343)]
    [InlineData(100, 2913.8, 128.497, 139.860, 279.720, 172)]
    public static void ASpacing_GivesThePrintedDelayAndFirstNull(double centimetres, double microseconds, double at441, double at48, double at96, double firstNull)
    {
        // A side behind the mid hears a source straight ahead that much later.
        var delay = new CapsuleOffset(-centimetres / 100).Delay(default, 20);

        Near.Printed(microseconds, delay.Microseconds, 0.05);
        Near.Printed(at441, delay.Samples(new(44_100)), 0.0005);
        Near.Printed(at48, delay.Samples(new(48_000)), 0.0005);
        Near.Printed(at96, delay.Samples(new(96_000)), 0.0005);
        Near.Printed(firstNull, delay.FirstNull!.Value.Value, 0.5);
    }

    // c = 343.2·√(T/293.15), ISO 9613-1; figures derived, as printed.
    [Theory]
    [InlineData(-20, 318.93)]
    [InlineData(0, 331.29)]
    [InlineData(10, 337.30)]
    [InlineData(20, 343.20)]
    [InlineData(30, 349.00)]
    [InlineData(40, 354.71)]
    public static void Iso9613Part1_SpeedOfSound_IsAsPrinted(double celsius, double speed)
        => Near.Printed(speed, CapsuleOffset.SpeedOfSound(celsius), 0.005);

    // The linear rule 331.3 + 0.606·t is from memory.
    [Theory]
    [InlineData(-20)]
    [InlineData(0)]
    [InlineData(20)]
    public static void FromMemory_TheLinearRule_LiesWithin0_3MetresPerSecond(double celsius)
        => Assert.Equal(331.3 + (0.606 * celsius), CapsuleOffset.SpeedOfSound(celsius), 0.3);

    [Fact]
    public static void ASideBehindTheMid_IsLateForTheFront_EarlyForTheRear_AndLevelAtTheSide()
    {
        var offset = new CapsuleOffset(-0.03);

        Assert.True(offset.Delay(default, 20).Seconds > 0);
        Assert.Equal(-offset.Delay(default, 20).Seconds, offset.Delay(new(180), 20).Seconds, 1e-15);
        Assert.Equal(0, offset.Delay(new(90), 20).Seconds, 1e-15);
        Assert.Equal(Math.Sqrt(0.5), offset.Delay(new(45), 20).Seconds / offset.Delay(default, 20).Seconds, 1e-12);
    }

    // Common practice: a spaced pair can lose level in mono, where a mid-side pair gives the mid alone.
    [Fact]
    public static void TwoSpacedMicrophones_CancelInMonoAtTheFirstNull()
    {
        var delay = new CapsuleOffset(-0.17).Delay(default, 20);
        var halfTurns = 2 * delay.Seconds * delay.FirstNull!.Value.Value;

        Assert.Equal(0, (1 + Math.Cos(Math.PI * halfTurns)) / 2, 1e-12);
    }

    [Fact]
    public static void ASideAboveTheMid_HasNoDelayOnTheHorizon()
    {
        var offset = new CapsuleOffset(0, 0, 0.05);

        Assert.Null(offset.Delay(new(70), 20).FirstNull);
        Assert.Equal(-0.05 / 343.2, offset.Delay(default, 20, new(90)).Seconds, 1e-15);
    }

    [Fact]
    public static void ASideToTheLeft_IsEarlyForTheLeft() => Assert.Equal(-0.05 / 343.2, new CapsuleOffset(0, 0.05).Delay(new(90), 20).Seconds, 1e-15);

    [Fact]
    public static void NoDirection_IsLaterThanTheDistanceOverTheSpeedOfSound()
        => Gen.Select(Gen.Double[-0.3, 0.3].Array[3], Gen.Double[-180, 180], Gen.Double[-90, 90]).Sample((p, azimuth, elevation) =>
        {
            var offset = new CapsuleOffset(p[0], p[1], p[2]);
            Assert.True(Math.Abs(offset.Delay(new(azimuth), 12, new(elevation)).Seconds) <= offset.Longest(12).Seconds + 1e-15);
        });

    [Fact]
    public static void ColdAir_MakesTheDelayLonger()
        => Assert.True(new CapsuleOffset(-0.1).Delay(default, -20).Seconds > new CapsuleOffset(-0.1).Delay(default, 30).Seconds);

    [Theory]
    [InlineData(-300)]
    [InlineData(200)]
    [InlineData(double.NaN)]
    public static void AnImpossibleTemperature_IsRefused(double celsius) => Assert.Throws<ArgumentOutOfRangeException>(() => CapsuleOffset.SpeedOfSound(celsius));
}
