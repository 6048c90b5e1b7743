using System.Diagnostics;
using System.Globalization;
using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

/// <summary>The same measures with and without hardware vector instructions, in a process of its own.</summary>
public class VectorsOffTests
{
    internal const string FileVariable = "ATHWART_METER_FIGURES_FILE";

    [Fact]
    public void WithoutHardwareVectors_EveryFigureAgreesTo1e6Decibels()
    {
        if (Environment.GetEnvironmentVariable(FileVariable) is { } target)
        {
            // This is the child: leave the figures behind.
            File.WriteAllLines(target, Figures().Select(f => f.ToString("R", CultureInfo.InvariantCulture)));
            return;
        }

        if (!System.Runtime.Intrinsics.Vector256.IsHardwareAccelerated)
            Assert.Skip("This run has no vector instructions to compare with.");
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, UseShellExecute = false };
        foreach (var argument in (string[])[typeof(VectorsOffTests).Assembly.Location, "-method", $"*.{nameof(WithoutHardwareVectors_EveryFigureAgreesTo1e6Decibels)}"])
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_EnableHWIntrinsic"] = "0";
        start.Environment[FileVariable] = folder.File("figures");
        using var child = Process.Start(start)!;
        var output = child.StandardOutput.ReadToEnd();
        child.WaitForExit();
        Assert.True(File.Exists(folder.File("figures")), output);
        var plain = File.ReadAllLines(folder.File("figures")).Select(l => double.Parse(l, CultureInfo.InvariantCulture)).ToList();
        var ours = Figures();
        Assert.Equal(ours.Count, plain.Count);
        Assert.Equal(1, plain[^1] + ours[^1]); // one with, one without vectors
        for (var i = 0; i < ours.Count - 1; i++)
            Assert.Equal(ours[i], plain[i], 1e-6);
    }

    private static List<double> Figures()
    {
        var (mid, side) = (Noise(200_000, 0.4, 1), Noise(200_000, 0.2, 2));
        Array.Fill(mid, 0.39f, 50_000, 100);
        var m = Take(mid, side, sideGain: 0.8);
        return
        [
            .. m.Roles.SelectMany(r => (double[])[r.SamplePeak.Value, r.TruePeak.Value, r.Rms.Value, r.NoiseFloor.Value, r.DcOffset, r.FlatTops.Count, r.HighestUsefulFrequency.Value]),
            m.Loudness.Integrated.Value, m.Loudness.MaxMomentary.Value, m.Loudness.MaxShortTerm.Value, m.Loudness.Range.Value,
            m.Correlation.Whole, m.Correlation.Worst, m.MidSideCorrelation, m.SideMinusMid.Value,
            System.Runtime.Intrinsics.Vector256.IsHardwareAccelerated ? 1 : 0,
        ];
    }
}
