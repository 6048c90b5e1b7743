using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Equipment;

public sealed class KitChecksTests
{
    private static readonly MicrophoneSetting Sound = new() { Pattern = FirstOrderPattern.Cardioid, SensitivityMillivoltsPerPascal = 14, EquivalentNoiseDecibelsA = 16, MaximumLevelDecibels = 134, LowHertz = 30, HighHertz = 20_000 };

    private static readonly Microphone Plain = new() { Name = "small cardioid", Settings = [Sound], PhantomMilliamperes = 3, Price = new(140, "EUR") };

    [Fact]
    public void ASoundMicrophone_IsKeptWithoutAWord() => Assert.Empty(KitChecks.Of(Plain));

    [Fact]
    public void AMicrophoneOfWhichOnlyThePatternIsKnown_IsKeptWithoutAWord() =>
        Assert.Empty(KitChecks.Of(new Microphone { Name = "found", Settings = [new() { Pattern = FirstOrderPattern.FigureEight }] }));

    [Theory]
    [InlineData("sensitivity", -14)]
    [InlineData("sensitivity", 0)]
    [InlineData("sensitivity", 0.05)]
    [InlineData("sensitivity", 250)]
    [InlineData("sensitivity", double.NaN)]
    [InlineData("noise", -3)]
    [InlineData("noise", 61)]
    [InlineData("maximum level", 70)]
    [InlineData("maximum level", 200)]
    [InlineData("low end", 0)]
    [InlineData("high end", 20)]
    [InlineData("high end", 1e6)]
    public void AnImpossibleFigureOfAPattern_IsRefused_AndThePlausibleRangeIsSaid(string name, double value)
    {
        var figure = SettingFigures.All.Single(f => f.Name == name);
        var remark = KitChecks.Of(Plain with { Settings = [figure.Write(Sound, value)] }).First(r => r.Figure == name);
        Assert.True(remark.IsRefusal);
        Assert.Equal(0, remark.Setting);
        Assert.Contains(figure.Range, remark.Message, StringComparison.Ordinal);
        Assert.Contains(figure.Why, remark.Message, StringComparison.Ordinal);
        Assert.NotEmpty(remark.Remedy);
    }

    [Fact]
    public void EveryFigure_IsKeptAtItsBounds_AndRefusedBeyond()
    {
        Bounds(SettingFigures.All);
        Bounds(MicrophoneFigures.All);
        Bounds(RecorderFigures.All);
        Bounds(ProtectionFigures.All);

        static void Bounds(IEnumerable<KitFigure> figures) => Assert.All(figures, f =>
        {
            Assert.True(f.Lowest <= f.UsualLowest && f.UsualLowest < f.UsualHighest && f.UsualHighest <= f.Highest, f.Name);
            Assert.NotEqual(true, f.Judge(f.Lowest)?.IsRefusal);
            Assert.NotEqual(true, f.Judge(f.Highest)?.IsRefusal);
            Assert.Null(f.Judge(f.UsualLowest));
            Assert.Null(f.Judge(f.UsualHighest));
            Assert.Null(f.Judge(null));
            Assert.True(f.Judge(Math.BitDecrement(f.Lowest))!.IsRefusal);
            Assert.True(f.Judge(Math.BitIncrement(f.Highest))!.IsRefusal);
        });
    }

    [Fact]
    public void AnUnusualFigure_IsKeptWithARemark()
    {
        var remark = Assert.Single(KitChecks.Of(Plain with { Settings = [Sound with { EquivalentNoiseDecibelsA = 42 }] }));
        Assert.False(remark.IsRefusal);
        Assert.Contains("4 to 36 dBA", remark.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(2000)]
    public void ACountBelowOneOrAbsurd_IsRefused(int count) =>
        Assert.Equal("count", Assert.Single(KitChecks.Of(Plain with { Count = count })).Figure);

    [Fact]
    public void NoiseNotBelowTheMaximumLevel_IsRefused() => AssertRefused("noise", Sound with { EquivalentNoiseDecibelsA = 60, MaximumLevelDecibels = 60 });

    [Fact]
    public void ALowEndNotBelowTheHighEnd_IsRefused() => AssertRefused("low end", Sound with { LowHertz = 4000, HighHertz = 4000 });

    [Fact]
    public void MoreVoltsThanPhantomCanGive_IsRemarkedOn()
    {
        // 100 mV/Pa at 140 dB SPL is 46 dB above 1 Pa: 20 V.
        var remark = Assert.Single(KitChecks.Of(Plain with { Settings = [Sound with { SensitivityMillivoltsPerPascal = 100, MaximumLevelDecibels = 140 }] }));
        Assert.False(remark.IsRefusal);
        Assert.Contains("20 V", remark.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData(" C1")]
    [InlineData("C1 ")]
    [InlineData("C\n1")]
    public void ANameThatIsNone_IsRefused(string name) => Assert.Contains(KitChecks.Of(Plain with { Name = name }), r => r.IsRefusal && r.Figure == "name");

    // Half of a surrogate pair; an attribute cannot carry it.
    [Fact]
    public void ANameThatIsNoText_IsRefused() => Assert.Contains(KitChecks.Of(Plain with { Name = "C\ud8001" }), r => r.IsRefusal && r.Figure == "name");

    [Theory]
    [InlineData("")]
    [InlineData("eur")]
    [InlineData("EURO")]
    [InlineData("€")]
    public void APriceWithoutThreeLettersOfCurrency_IsRefused(string currency) =>
        Assert.Equal("currency", Assert.Single(KitChecks.Of(Plain with { Price = new(10, currency) })).Figure);

    [Fact]
    public void APriceBelowZero_IsRefused_AndZeroIsNot()
    {
        Assert.Equal("price", Assert.Single(KitChecks.Of(Plain with { Price = new(-1, "EUR") })).Figure);
        Assert.Empty(KitChecks.Of(Plain with { Price = new(0, "EUR") }));
    }

    [Fact]
    public void SeveralPatterns_NeedLabels_AndEachOnce()
    {
        Assert.Equal([0, 1], KitChecks.Of(Plain with { Settings = [Sound, Sound with { Pattern = FirstOrderPattern.Omni }] }).Select(r => r.Setting));
        var twice = Assert.Single(KitChecks.Of(Plain with { Settings = [Sound with { Label = "wide" }, Sound with { Label = "Wide" }] }));
        Assert.True(twice.IsRefusal);
        Assert.Equal(1, twice.Setting);
        Assert.Empty(KitChecks.Of(Plain with { Settings = [Sound with { Label = "wide" }, Sound with { Label = "narrow" }] }));
        Assert.True(Assert.Single(KitChecks.Of(Plain with { Settings = [] })).IsRefusal);
    }

    [Fact]
    public void ARecorder_WhoseFiguresContradictEachOther_IsRefused()
    {
        Assert.Equal("maximum gain", Refusal(new() { Name = "R", MinimumGainDecibels = 50, MaximumGainDecibels = 10 }));
        Assert.Equal("gain step", Refusal(new() { Name = "R", MinimumGainDecibels = 10, MaximumGainDecibels = 20, GainStepDecibels = 11 }));
        Assert.Equal("battery with phantom", Refusal(new() { Name = "R", BatteryHours = 4, BatteryHoursWithPhantom = 5 }));
        Assert.Equal("inputs", Refusal(new() { Name = "R", InputCount = 0 }));

        static string Refusal(Recorder recorder)
        {
            return Assert.Single(KitChecks.Of(recorder), r => r.IsRefusal).Figure;
        }
    }

    [Fact]
    public void InputNoiseBelowThatOfTheSourceItself_IsRemarkedOn()
    {
        // √(4·k·293 K·150 Ω·20 kHz) is 0.22 µV, −130.9 dBu; A-weighting takes about 2 dB off.
        var volts = Math.Sqrt(4 * 1.380649e-23 * 293 * 150 * 20_000);
        Assert.Equal(-130.9, 20 * Math.Log10(volts / 0.7746), 1);
        Assert.False(Assert.Single(KitChecks.Of(new Recorder { Name = "R", EquivalentInputNoiseDecibelsU = -134 })).IsRefusal);
    }

    [Fact]
    public void AProtectionWithANegativeLoss_IsRefused() =>
        Assert.Equal("low loss", Assert.Single(KitChecks.Of(new WindProtection { Name = "cage", LowFrequencyLossDecibels = -2 })).Figure);

    private static void AssertRefused(string figure, MicrophoneSetting setting) =>
        Assert.Contains(KitChecks.Of(Plain with { Settings = [setting] }), r => r.IsRefusal && r.Figure == figure);
}
