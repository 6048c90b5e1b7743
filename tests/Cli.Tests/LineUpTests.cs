using System.Text.Json;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

/// <summary>The line-up command on a rig of known numbers: mid A = 0.55, side 3 dB down and 2.3 frames late.</summary>
public sealed class LineUpTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void ARig_IsMeasured_AsJson()
    {
        var take = Write(_folder.File("rig.wav"), sideGain: -0.708, swapped: true);

        var result = CommandLine.Run("line-up", take, "--mid-pattern", "0.55", "--json");

        Assert.Equal(ExitCode.Done, result.Code);
        var profile = JsonDocument.Parse(result.Output).RootElement.GetProperty("profile");
        Assert.Equal(2, profile.GetProperty("midChannel").GetInt32());
        Assert.True(profile.GetProperty("sideInverted").GetBoolean());
        Assert.Equal(-3, profile.GetProperty("gainOffsetDecibels").GetProperty("value").GetDouble(), 0.2);
        Assert.Equal(2.3, profile.GetProperty("delayFrames").GetProperty("value").GetDouble(), 0.05);
    }

    [Fact]
    public void AProfile_IsKept_AndComparedWithTheOneBefore()
    {
        Directory.CreateDirectory(_folder.File("card"));
        Write(_folder.File("card/T01.WAV"), 0.708, swapped: false);
        CommandLine.Run("take-in", _folder.File("card"), "--library", _folder.File("lib"), "--session", "May", "--date", "2026-05-14");
        Directory.CreateDirectory(_folder.File("card2"));
        Write(_folder.File("card2/T02.WAV"), 0.708 / 1.23, swapped: false);
        CommandLine.Run("take-in", _folder.File("card2"), "--library", _folder.File("lib"), "--session", "June", "--date", "2026-06-14");

        var first = CommandLine.Run("line-up", "--library", _folder.File("lib"), "--session", "May", "--take", "T01", "--rig", "blimp", "--mid-pattern", "0.55");
        var second = CommandLine.Run("line-up", "--library", _folder.File("lib"), "--session", "June", "--take", "T02", "--rig", "Blimp", "--mid-pattern", "0.55");

        Assert.Contains("first profile", first.Output, StringComparison.Ordinal);
        Assert.Contains("The side is 1.8 dB down against the mid since 2026-05-14.", second.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void AKeptProfile_IsListed_Attached_AndUsedWhenTheSessionIsChecked()
    {
        Directory.CreateDirectory(_folder.File("card"));
        // Recorded with the side's polarity turned, and taken as recorded.
        Write(_folder.File("card/T01.WAV"), -0.708, swapped: false);
        var library = _folder.File("lib");
        CommandLine.Run("take-in", _folder.File("card"), "--library", library, "--session", "May", "--date", "2026-05-14");
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("line-up", "--attach", "blimp", "--library", library, "--session", "May").Code);
        Assert.Contains("No rig", CommandLine.Run("line-up", "--list", "--library", library).Output, StringComparison.Ordinal);

        CommandLine.Run("line-up", "--library", library, "--session", "May", "--take", "T01", "--rig", "blimp", "--mid-pattern", "0.55");

        Assert.Contains("blimp", CommandLine.Run("line-up", "--list", "--library", library).Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, CommandLine.Run("line-up", "--attach", "blimp", "--library", library, "--session", "May").Code);
        var check = CommandLine.Run("check", "--library", library, "--session", "May");
        Assert.Contains("rig: 'blimp' as measured on 2026-05-14", check.Output, StringComparison.Ordinal);
        Assert.Contains("side-inverted", check.Output, StringComparison.Ordinal);
        Assert.Contains("roles --invert-side", check.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void PicturesAndPage_AreWritten_AndNeverOverOthersUnlessAsked()
    {
        var take = Write(_folder.File("rig.wav"), 0.708, swapped: false);
        string[] command = ["line-up", take, "--mid-pattern", "cardioid", "--pictures", _folder.File("pictures"), "--page", _folder.File("rig.html")];
        Assert.Equal(ExitCode.Done, CommandLine.Run(command).Code);
        Assert.Equal(ExitCode.Refused, CommandLine.Run(command).Code);
        Assert.Equal(ExitCode.Done, CommandLine.Run([.. command, "--overwrite"]).Code);
        Assert.Equal("arrivals.svg delay.svg noise.svg response.svg sounds.svg", string.Join(' ', Directory.GetFiles(_folder.File("pictures")).Select(Path.GetFileName).Order(StringComparer.Ordinal)));
        Assert.Contains("<figure>", File.ReadAllText(_folder.File("rig.html")), StringComparison.Ordinal);
    }

    // Colder air makes the measured spacing smaller and sound slower by as much: the delays it gives are those that were measured.
    [Fact]
    public void TheDelaysThatTheSpacingGives_AreDrawnForTheAirThatItWasMeasuredIn()
    {
        var take = Write(_folder.File("rig.wav"), 0.708, swapped: false, spacing: 9);
        foreach (var celsius in new[] { "-30", "45" })
            Assert.Equal(ExitCode.Done, CommandLine.Run("line-up", take, "--mid-pattern", "0.55", "--air-temp=" + celsius, "--pictures", _folder.File(celsius)).Code);
        Assert.Equal(File.ReadAllText(_folder.File(Path.Combine("45", "delay.svg"))), File.ReadAllText(_folder.File(Path.Combine("-30", "delay.svg"))));
    }

    [Fact]
    public void TheKit_GivesPatternAndSensitivity_SoThatNoiseIsSaidAtTheInputAndAsSound()
    {
        var take = Write(_folder.File("rig.wav"), 0.708, swapped: false);
        string[] kit = ["--demo-kit", "--mid-mic", "small cardioid A", "--side-mic", "small figure-8 B", "--recorder", "pocket recorder", "--mid-gain", "28", "--side-gain", "28"];

        var result = CommandLine.Run(["line-up", take, "--json", .. kit]);

        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        var profile = JsonDocument.Parse(result.Output).RootElement.GetProperty("profile");
        Assert.Equal(0.5, profile.GetProperty("midPattern").GetDouble());
        var noise = profile.GetProperty("midNoise");
        // At 28 dB, 20 above the lowest of 8, full scale is 2 dBu − 20 dB; a full-scale sine's root mean square reads −3.01 dBFS.
        var weighted = noise.GetProperty("decibelsFullScaleA").GetProperty("value").GetDouble();
        Assert.Equal(weighted + 3.01 - 18, noise.GetProperty("inputDecibelsUA").GetDouble(), 0.01);
        // 14 mV/Pa is −34.86 dBu/Pa, and 1 Pa is 93.98 dB.
        Assert.Equal(weighted + 3.01 - 18 + 34.86 + 93.98, noise.GetProperty("soundLevelA").GetDouble(), 0.02);
    }

    [Fact]
    public void ATakeThatIsNoLineUp_CannotBeTold() => Assert.Equal(ExitCode.FaultFound, CommandLine.Run("line-up", RawPairs.Write(_folder.File("tone.wav"))).Code);

    [Theory]
    [InlineData("--order", "front,sideways")]
    [InlineData("--order", "silence")]
    [InlineData("--mid-pattern", "2")]
    [InlineData("--mid-pattern", "quux")]
    [InlineData("--mid-gain", "20")]
    [InlineData("--attach", "blimp")]
    [InlineData("--rig", "blimp")]
    public void AWrongOption_IsRefused(string option, string value) =>
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("line-up", RawPairs.Write(_folder.File("tone.wav")), option, value).Code);

    public void Dispose() => _folder.Dispose();

    private static string Write(string path, double sideGain, bool swapped, double spacing = 0)
    {
        const int Frames = 14 * RawPairs.Rate;
        var random = new Random(7);
        using var writer = WaveWriter.Create(path, new() { ChannelCount = 2, SampleRateHertz = RawPairs.Rate, Format = SampleFormat.Int24, Durable = false });
        var block = new PlanarBlock<int>(2, Frames) { Length = Frames };
        for (var n = 0; n < Frames; n++)
        {
            var seconds = ((double)n / RawPairs.Rate) - 1.5;
            var direction = (int)Math.Floor(seconds / 3);
            var since = seconds - (3 * direction);
            var clap = (int)(since / 0.5);
            var azimuth = direction switch { 0 => 0, 1 => 0.5, 2 => -0.5, _ => 1 } * Math.PI;
            var loud = direction is >= 0 and <= 3 && clap <= 2 ? 0.4 : 0;
            var t = since - (0.5 * clap);
            block.Channel(swapped ? 1 : 0)[n] = Steps((loud * (0.55 + (0.45 * Math.Cos(azimuth))) * Clap(t)) + (0.001 * (random.NextDouble() - 0.5)));
            block.Channel(swapped ? 0 : 1)[n] = Steps((loud * sideGain * Math.Sin(azimuth) * Clap(t - ((2.3 - (spacing * Math.Cos(azimuth))) / RawPairs.Rate))) + (0.001 * (random.NextDouble() - 0.5)));
        }

        writer.Write(block);
        writer.Complete();
        return path;
    }

    private static int Steps(double value) => (int)Math.Round(value * 8388607);

    private static double Clap(double t)
    {
        if (t <= 0)
            return 0;
        var rise = 1 - Math.Exp(-t / 1e-4);
        return rise * rise * rise * ((Math.Exp(-t / 8e-4) * Math.Cos(7000 * t)) + (0.8 * Math.Exp(-t / 3e-4) * Math.Cos(19000 * t)));
    }
}
