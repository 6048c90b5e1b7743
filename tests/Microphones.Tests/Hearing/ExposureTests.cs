using Athwart.Microphones.Hearing;
using Athwart.Microphones.Levels;
using CsCheck;

namespace Athwart.Microphones.Tests.Hearing;

public static class ExposureTests
{
    // Source: CDC/NIOSH, sound level meter page: 85 dBA 8 h, then 88 to 100; from 82 and 103 on derived by its formula.
    [Theory]
    [InlineData(82, 16 * 3600)]
    [InlineData(85, 8 * 3600)]
    [InlineData(88, 4 * 3600)]
    [InlineData(91, 2 * 3600)]
    [InlineData(94, 60 * 60)]
    [InlineData(97, 30 * 60)]
    [InlineData(100, 15 * 60)]
    [InlineData(103, 7.5 * 60)]
    [InlineData(106, 3.75 * 60)]
    [InlineData(109, 1.875 * 60)]
    [InlineData(112, 56.25)]
    [InlineData(115, 28.125)]
    public static void Niosh_EachThreeDecibels_HalvesTheTime(double level, double seconds)
    {
        Assert.Equal(seconds, NioshExposure.AllowedSeconds(level), 9);
        Assert.Equal(100, NioshExposure.DosePercent([new("", level, seconds)]), 9);
    }

    // Source: NIOSH, ceiling of 115 dBA.
    [Fact]
    public static void Niosh_AboveTheCeiling_AllowsNothing()
    {
        Assert.Equal(0, NioshExposure.AllowedSeconds(115.1));
        Assert.Equal(double.PositiveInfinity, NioshExposure.DosePercent([new("", 116, 1)]));
        Assert.Equal(0, NioshExposure.DosePercent([new("", 116, 0)]));
    }

    // Source: NIOSH, TWA = 10·lg(D/100) + 85.
    [Theory]
    [InlineData(100, 85)]
    [InlineData(200, 88.01)]
    [InlineData(50, 81.99)]
    public static void Niosh_DoseIsAnAverage(double dose, double average)
        => Assert.Equal(average, NioshExposure.TimeWeightedAverageDecibelsA(dose), 0.005);

    // Source: the directive, article 3, in pascals; decibels derived: 140.0, 136.9, 135.0.
    [Theory]
    [InlineData(EuropeanExposure.LimitPeakPascals, 140.0)]
    [InlineData(EuropeanExposure.UpperActionPeakPascals, 136.9)]
    [InlineData(EuropeanExposure.LowerActionPeakPascals, 135.0)]
    public static void European_PeakValues_InDecibels(double pascals, double decibels)
        => Assert.Equal(decibels, SoundPressure.FromPascals(pascals), 0.05);

    // Source: SCENIHR, table 3: what equals 80 dBA for 8 hours, printed in whole decibels.
    [Theory]
    [InlineData(80, 480)]
    [InlineData(83, 240)]
    [InlineData(86, 120)]
    [InlineData(89, 60)]
    [InlineData(92, 30)]
    [InlineData(95, 15)]
    [InlineData(98, 8)]
    [InlineData(101, 4)]
    [InlineData(104, 2)]
    [InlineData(107, 1)]
    public static void European_EquivalentsOf80DecibelsA(double level, double minutes)
    {
        var most = EuropeanExposure.AllowedSeconds(level - 0.5, EuropeanExposure.LowerActionDecibelsA) / 60;
        var least = EuropeanExposure.AllowedSeconds(level + 0.5, EuropeanExposure.LowerActionDecibelsA) / 60;
        Assert.InRange(minutes, least, most);
        Assert.Equal(80, EuropeanExposure.DailyDecibelsA([new("", level, minutes * 60)]), 0.5);
    }

    // Source: the directive, article 3; action values are reached, the limit is not exceeded at 87 exactly.
    [Theory]
    [InlineData(79.9, null, EuropeanValue.None)]
    [InlineData(80, null, EuropeanValue.LowerAction)]
    [InlineData(85, null, EuropeanValue.UpperAction)]
    [InlineData(87, null, EuropeanValue.UpperAction)]
    [InlineData(87.1, null, EuropeanValue.AboveLimit)]
    [InlineData(60, 134.9, EuropeanValue.None)]
    [InlineData(60, 135.0, EuropeanValue.LowerAction)]
    [InlineData(60, 137.0, EuropeanValue.UpperAction)]
    [InlineData(60, 140.1, EuropeanValue.AboveLimit)]
    public static void European_ValueReached(double daily, double? peak, EuropeanValue value)
        => Assert.Equal(value, EuropeanExposure.Reached(daily, peak));

    // Source: ITU-T H.870, quoted: 1.6 Pa²h for adults; 75 dBA for 40 h derived as 0.506 Pa²h.
    [Fact]
    public static void ListeningDose_OfAWeek()
    {
        Assert.Equal(1.600, ListeningDose.PascalSquaredHours(ListeningDose.AdultDecibelsA, 40), 0.0005);
        Assert.Equal(0.506, ListeningDose.PascalSquaredHours(ListeningDose.ChildDecibelsA, 40), 0.0005);
    }

    // Derived from the same: each 3 dB halves the hours.
    [Theory]
    [InlineData(83, 20)]
    [InlineData(86, 10)]
    [InlineData(89, 5)]
    [InlineData(92, 2.5)]
    [InlineData(95, 1.25)]
    [InlineData(98, 0.625)]
    [InlineData(101, 0.3125)]
    public static void ListeningHours_AWeek(double level, double hours)
        => Assert.Equal(hours, ListeningDose.HoursPerWeek(level), 9);

    // By hand: 1 h at 88 (25 %) and 2 h of headphones at 85 (25 %) is half a dose.
    [Fact]
    public static void Report_CountsHeadphonesWithTheRest()
    {
        var report = ExposureReport.For([new("lock gates", 88, 3600), new("headphones", 85, 7200)]);
        Assert.Equal(50, report.NioshDosePercent, 9);
        Assert.Equal(EuropeanValue.LowerAction, report.European);
        Assert.False(report.TooMuch);
        Assert.Equal(4 * 3600, report.Lines[0].NioshAllowedSeconds, 9);
        Assert.True(ExposureReport.For([new("impulse", 60, 1)], 141).TooMuch);
    }

    [Fact]
    public static void EmptyDay_IsNoExposure()
    {
        var report = ExposureReport.For([]);
        Assert.Equal((0, double.NegativeInfinity, EuropeanValue.None), (report.NioshDosePercent, report.DailyDecibelsA, report.European));
    }

    [Fact]
    public static void LouderOrLonger_IsNeverLessDose()
        => Gen.Select(Gen.Double[40, 115], Gen.Double[0, 30_000], Gen.Double[0, 10], Gen.Double[0, 1000]).Sample((level, seconds, louder, longer) =>
        {
            var dose = NioshExposure.DosePercent([new("", level, seconds)]);
            Assert.True(NioshExposure.DosePercent([new("", level + louder, seconds)]) >= dose);
            Assert.True(NioshExposure.DosePercent([new("", level, seconds + longer)]) >= dose);
        });

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(90, -1)]
    public static void ImpossibleExposure_IsRefused(double level, double seconds)
        => Assert.Throws<ArgumentOutOfRangeException>(() => ExposureReport.For([new("", level, seconds)]));
}
