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
    public void ATakeThatIsNoLineUp_CannotBeTold() => Assert.Equal(ExitCode.FaultFound, CommandLine.Run("line-up", RawPairs.Write(_folder.File("tone.wav"))).Code);

    [Theory]
    [InlineData("--order", "front,sideways")]
    [InlineData("--order", "silence")]
    [InlineData("--mid-pattern", "2")]
    [InlineData("--rig", "blimp")]
    public void AWrongOption_IsRefused(string option, string value) =>
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("line-up", RawPairs.Write(_folder.File("tone.wav")), option, value).Code);

    public void Dispose() => _folder.Dispose();

    private static string Write(string path, double sideGain, bool swapped)
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
            block.Channel(swapped ? 0 : 1)[n] = Steps((loud * sideGain * Math.Sin(azimuth) * Clap(t - (2.3 / RawPairs.Rate))) + (0.001 * (random.NextDouble() - 0.5)));
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
