using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;

namespace Athwart.Jobs;

/// <summary>Work spread over the processors.</summary>
internal static class Workers
{
    /// <summary>As <see cref="Parallel.ForEach{T}(Partitioner{T}, ParallelOptions, Action{T})"/>, but one failure is thrown as itself.</summary>
    public static void ForEach<T>(Partitioner<T> items, ParallelOptions options, Action<T> body)
    {
        try
        {
            Parallel.ForEach(items, options, body);
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.Flatten().InnerExceptions[0]);
        }
    }
}
