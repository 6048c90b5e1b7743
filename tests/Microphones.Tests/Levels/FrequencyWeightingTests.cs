using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Tests.Levels;

/// <summary>Source: IEC 61672-1:2013 Table 3, quoted from open acoustics libraries that transcribe it. Printed to 0.1 dB at exact base-ten frequencies.</summary>
public static class FrequencyWeightingTests
{
    private const double None = double.NegativeInfinity;

    /// <summary>Tenths of a decade against 1 kHz, A, C, class 1 upper and lower limit.</summary>
    public static TheoryData<int, double, double, double, double> Table3 { get; } = new()
    {
        { -20, -70.4, -14.3, 3.0, None }, { -19, -63.4, -11.2, 2.5, None }, { -18, -56.7, -8.5, 2.0, -4.0 },
        { -17, -50.5, -6.2, 2.0, -2.0 }, { -16, -44.7, -4.4, 2.0, -1.5 }, { -15, -39.4, -3.0, 1.5, -1.5 },
        { -14, -34.6, -2.0, 1.0, -1.0 }, { -13, -30.2, -1.3, 1.0, -1.0 }, { -12, -26.2, -0.8, 1.0, -1.0 },
        { -11, -22.5, -0.5, 1.0, -1.0 }, { -10, -19.1, -0.3, 1.0, -1.0 }, { -9, -16.1, -0.2, 1.0, -1.0 },
        { -8, -13.4, -0.1, 1.0, -1.0 }, { -7, -10.9, 0.0, 1.0, -1.0 }, { -6, -8.6, 0.0, 1.0, -1.0 },
        { -5, -6.6, 0.0, 1.0, -1.0 }, { -4, -4.8, 0.0, 1.0, -1.0 }, { -3, -3.2, 0.0, 1.0, -1.0 },
        { -2, -1.9, 0.0, 1.0, -1.0 }, { -1, -0.8, 0.0, 1.0, -1.0 }, { 0, 0.0, 0.0, 0.7, -0.7 },
        { 1, 0.6, 0.0, 1.0, -1.0 }, { 2, 1.0, -0.1, 1.0, -1.0 }, { 3, 1.2, -0.2, 1.0, -1.0 },
        { 4, 1.3, -0.3, 1.0, -1.0 }, { 5, 1.2, -0.5, 1.0, -1.0 }, { 6, 1.0, -0.8, 1.0, -1.0 },
        { 7, 0.5, -1.3, 1.5, -1.5 }, { 8, -0.1, -2.0, 1.5, -2.0 }, { 9, -1.1, -3.0, 1.5, -2.5 },
        { 10, -2.5, -4.4, 2.0, -3.0 }, { 11, -4.3, -6.2, 2.0, -5.0 }, { 12, -6.6, -8.5, 2.5, -16.0 },
        { 13, -9.3, -11.2, 3.0, None },
    };

    [Theory]
    [MemberData(nameof(Table3))]
    public static void Iec61672_Table3_ReadsAsPrinted(int tenths, double a, double c, double upper, double lower)
    {
        var hertz = 1000 * Math.Pow(10, tenths / 10.0);
        Assert.Equal(a, WeightingA.Decibels(hertz), 0.05);
        Assert.Equal(c, WeightingC.Decibels(hertz), 0.05);
        Assert.InRange(WeightingA.Decibels(hertz) - a, lower, upper);
        Assert.InRange(WeightingC.Decibels(hertz) - c, lower, upper);
    }

    // A meter reads at the frequency on its dial: the nominal frequencies keep class 1 too.
    [Theory]
    [InlineData(31.5, -39.4, 1.5)]
    [InlineData(63, -26.2, 1.0)]
    [InlineData(125, -16.1, 1.0)]
    [InlineData(8000, -1.1, 1.5)]
    [InlineData(12_500, -4.3, 2.0)]
    public static void NominalFrequencies_KeepClass1(double hertz, double a, double limit)
        => Assert.Equal(a, WeightingA.Decibels(hertz), limit);

    // Source: Annex E, normalisation constants quoted as +2.000 and +0.062 dB.
    [Fact]
    public static void OneKilohertz_IsUnity()
    {
        Assert.Equal(0, WeightingA.Decibels(1000));
        Assert.Equal(0, WeightingC.Decibels(1000));
        Assert.Equal(1, WeightingA.Power(1000));
    }

    [Fact]
    public static void NoFrequency_IsSilent_AndNegativeIsRefused()
    {
        Assert.Equal(double.NegativeInfinity, WeightingA.Decibels(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => WeightingC.Decibels(-1));
    }
}
