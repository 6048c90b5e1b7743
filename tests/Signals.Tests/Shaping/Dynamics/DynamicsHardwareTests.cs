using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Security.Cryptography;
using Athwart.Signals.Resampling;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

/// <summary>The steps of this folder compute the same bits with and without vector instructions.</summary>
public sealed class DynamicsHardwareTests
{
    private const string DigestVariable = "ATHWART_DIGEST_FILE";

    [Fact]
    public void Steps_WithoutHardwareIntrinsics_GiveTheSameDigest()
    {
        if (Environment.GetEnvironmentVariable(DigestVariable) is { } file)
        {
            File.WriteAllLines(file, [Digest(), Vector256.IsHardwareAccelerated.ToString()]);
            return;
        }

        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var (exitCode, output) = Child(folder.File("digest"));
        Assert.True(exitCode == 0, output);
        Assert.Equal([Digest(), "False"], File.ReadAllLines(folder.File("digest")));
    }

    private static (int ExitCode, string Output) Child(string digestFile)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        foreach (var argument in (string[])["exec", typeof(DynamicsHardwareTests).Assembly.Location, "-method", $"{typeof(DynamicsHardwareTests).FullName}.{nameof(Steps_WithoutHardwareIntrinsics_GiveTheSameDigest)}", "-noColor"])
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_EnableHWIntrinsic"] = "0";
        start.Environment[DigestVariable] = digestFile;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output + error.GetAwaiter().GetResult());
    }

    private static string Digest()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        void Add(double[] values) => hash.AppendData(MemoryMarshal.AsBytes(values.AsSpan()));
        const int Rate = 44_100;
        double[] mid = [.. StageRun.Noise(1, 30_000, 0.1), .. StageRun.Noise(2, 3000, 0.9)], side = [.. StageRun.Noise(3, 31_000, 0.2), .. StageRun.Noise(4, 2000, 0.5)];
        IPairStage[] stages =
        [
            new MonoGuardStage(new(0.3), Rate, 1.2),
            new WidthOverTimeStage(new([new(100, -6), new(20_000, 3), new(25_000, double.NegativeInfinity)])),
            new BalanceStage(new(15)),
            new BalanceStage(new(-15, BalanceMethod.Rotate)),
            new SideAloneStage(new(-4)),
            new MadeUpSideStage(new(MadeUpMethod.AllPass), Rate),
            new MadeUpSideStage(new(MadeUpMethod.VelvetNoise, keepsSide: true), Rate),
            new TransientBalanceStage(new(PairRoles.Both, 3, -9), Rate),
            new WidthFollowsStage(new(FollowedQuantity.Level, -40, -10, -6, 3), Rate),
            new WidthFollowsStage(new(FollowedQuantity.Brightness, 500, 20_000, -6, 3), Rate),
        ];
        foreach (var stage in stages)
        {
            var (m, s) = StageRun.Whole(stage, mid, side, 12_345);
            Add(m);
            Add(s);
        }

        foreach (var speed in new[] { 0.3, 1.7 })
        {
            var output = new double[120];
            new SpeedChange(speed).Convert(mid, 0, 777, output);
            Add(output);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
