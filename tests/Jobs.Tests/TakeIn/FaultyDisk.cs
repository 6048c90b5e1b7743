using Athwart.Jobs.TakeIn;
using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.Tests.TakeIn;

/// <summary>Thrown in place of the process dying; no code of ours catches it.</summary>
internal sealed class SimulatedDeathException : Exception;

/// <summary>A disk on which something happens at the n-th step.</summary>
internal sealed class FaultyDisk : TakeInDisk
{
    private int _step;
    private bool _dead;

    /// <summary>The step, counted from 1, before which <see cref="Action"/> runs; 0 is never.</summary>
    public int AtStep { get; set; }

    public Action Action { get; set; } = () => { };

    /// <summary>From <see cref="AtStep"/> on nothing works any more, as when the process was killed.</summary>
    public bool Die { get; set; }

    public int Steps => _step;

    /// <summary>Changes what is read back, given the place in the file.</summary>
    public Action<long, Span<byte>>? OnReadBack { get; set; }

    /// <summary>Runs before a read of the card, given the path and place.</summary>
    public Action<long>? OnReadCard { get; set; }

    public Action<long>? OnWrite { get; set; }

    public long? Free { get; set; }

    public override SafeFileHandle OpenCard(string path) => Step(() => base.OpenCard(path));

    public override int ReadCard(SafeFileHandle file, Span<byte> buffer, long offset)
    {
        Step();
        OnReadCard?.Invoke(offset);
        return base.ReadCard(file, buffer, offset);
    }

    public override long FreeSpace(string folder) => Free ?? base.FreeSpace(folder);

    public override SafeFileHandle CreatePart(string path) => Step(() => base.CreatePart(path));

    public override void WritePart(SafeFileHandle file, ReadOnlySpan<byte> bytes, long offset)
    {
        Step();
        OnWrite?.Invoke(offset);
        base.WritePart(file, bytes, offset);
    }

    public override void Settle(SafeFileHandle file, long offset, long length)
    {
        Step();
        base.Settle(file, offset, length);
    }

    public override int ReadBack(SafeFileHandle file, Span<byte> buffer, long offset)
    {
        Step();
        var read = base.ReadBack(file, buffer, offset);
        OnReadBack?.Invoke(offset, buffer[..read]);
        return read;
    }

    public override void Seal(SafeFileHandle file, DateTimeOffset modified)
    {
        Step();
        base.Seal(file, modified);
    }

    public override void Rename(string part, string target)
    {
        Step();
        base.Rename(part, target);
    }

    public override void SyncFolder(string folder)
    {
        Step();
        base.SyncFolder(folder);
    }

    public override void CreateFolder(string folder)
    {
        Step();
        base.CreateFolder(folder);
    }

    public override void Delete(string path)
    {
        Step();
        base.Delete(path);
    }

    private T Step<T>(Func<T> work)
    {
        Step();
        return work();
    }

    private void Step()
    {
        var mine = Interlocked.Increment(ref _step);
        if (mine == AtStep)
        {
            Volatile.Write(ref _dead, Die);
            Action();
        }

        if (Volatile.Read(ref _dead))
            throw new SimulatedDeathException();
    }
}
